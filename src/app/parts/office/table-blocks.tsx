import { type ReadonlySignal, useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { onNear, whilePrinted } from "../../../device/near.ts";

/** So many rows are drawn or left out together: a `<tbody>`. */
const ROWS = 20;

interface TableBlocksProps<T> {
  readonly rows: readonly T[];
  /** Columns that a row has. */
  readonly columns: number;
  /** How high a row is before any was drawn, px. */
  readonly rowHeight: number;
  /** The place of a row that is drawn wherever the screen is; null for none. */
  readonly kept?: number | null;
  /** A `<tr>` with a key; `place` from 0. */
  readonly draw: (row: T, place: number) => ComponentChildren;
}

/** The rows of a long table, of which only what is near the screen is drawn; the others leave their height. On paper all of them. */
export function TableBlocks<T>({ rows, columns, rowHeight, kept = null, draw }: TableBlocksProps<T>) {
  const printed = useSignal(false);
  // As high as those that were drawn last: they are all alike.
  const height = useRef(rowHeight);
  useEffect(
    () =>
      whilePrinted((isPrinted) => {
        printed.value = isPrinted;
      }),
    [],
  );
  const starts = Array.from({ length: Math.ceil(rows.length / ROWS) }, (_, place) => place * ROWS);
  return starts.map((start) => (
    <Block
      key={start}
      stays={start === 0 || (kept !== null && kept >= start && kept < start + ROWS)}
      printed={printed}
      columns={columns}
      height={height}
      rows={Math.min(ROWS, rows.length - start)}
      draw={() => rows.slice(start, start + ROWS).map((row, place) => draw(row, start + place))}
    />
  ));
}

interface BlockProps {
  /** Drawn wherever the screen is. */
  readonly stays: boolean;
  readonly printed: ReadonlySignal<boolean>;
  readonly columns: number;
  /** Of a row, px. */
  readonly height: { current: number };
  readonly rows: number;
  readonly draw: () => ComponentChildren;
}

function Block({ stays, printed, columns, height, rows, draw }: BlockProps) {
  const place = useRef<HTMLTableSectionElement>(null);
  const drawn = useSignal(stays);
  const count = useRef(rows);
  count.current = rows;
  useEffect(() => {
    const { current } = place;
    if (!current) return;
    return onNear(current, (seen) => {
      if (drawn.value && seen.height > 0) height.current = seen.height / count.current;
      drawn.value = seen.isNear || stays || current.contains(document.activeElement);
    });
  }, [stays]);
  const isDrawn = drawn.value || printed.value;
  return (
    <tbody ref={place}>
      {isDrawn ? (
        draw()
      ) : (
        <tr class="left-out">
          <td colSpan={columns} style={{ height: `${rows * height.current}px` }} />
        </tr>
      )}
    </tbody>
  );
}
