import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { onNear, whilePrinted } from "../../device/near.ts";

/** So many rows are drawn or left out together. */
const ROWS = 12;

interface BlocksProps<T> {
  /** Oldest first. */
  readonly rows: readonly T[];
  /** Whether the newest is shown first. */
  readonly newestFirst?: boolean;
  /** How high a row is before it was ever drawn, px. */
  readonly rowHeight: number;
  /** An `<li>` with a key. */
  readonly draw: (row: T) => ComponentChildren;
}

/**
 * A long list of which only what is near the screen is drawn, in blocks that keep their height; on paper all of it. Blocks are
 * counted from the oldest row, so that a new one changes the newest block alone.
 */
export function Blocks<T>({ rows, newestFirst = false, rowHeight, draw }: BlocksProps<T>) {
  const starts = Array.from({ length: Math.ceil(rows.length / ROWS) }, (_, block) => block * ROWS);
  const shown = newestFirst ? starts.toReversed() : starts;
  return (
    <div class="blocks">
      {shown.map((start, place) => {
        const part = rows.slice(start, start + ROWS);
        return (
          <Block
            key={start}
            first={newestFirst ? start + part.length : start + 1}
            reversed={newestFirst}
            stays={place === 0}
            height={part.length * rowHeight}
            draw={() => (newestFirst ? part.toReversed() : part).map(draw)}
          />
        );
      })}
    </div>
  );
}

interface BlockProps {
  readonly first: number;
  readonly reversed: boolean;
  /** The first block is always drawn. */
  readonly stays: boolean;
  readonly height: number;
  readonly draw: () => ComponentChildren;
}

function Block({ first, reversed, stays, height, draw }: BlockProps) {
  const place = useRef<HTMLDivElement>(null);
  const drawn = useSignal(stays);
  const measured = useRef(height);
  useEffect(() => {
    const { current } = place;
    if (!current) return;
    const far = onNear(current, (isNear) => {
      // What is being typed stays.
      drawn.value = isNear || stays || current.contains(document.activeElement);
    });
    const printed = whilePrinted(() => {
      drawn.value = true;
    });
    return () => {
      far();
      printed();
    };
  }, [stays]);
  useLayoutEffect(() => {
    if (drawn.value && place.current) measured.current = place.current.offsetHeight;
  });
  return (
    <div ref={place} style={drawn.value ? undefined : { height: `${measured.current}px` }}>
      {drawn.value && (
        <ol start={first} reversed={reversed}>
          {draw()}
        </ol>
      )}
    </div>
  );
}
