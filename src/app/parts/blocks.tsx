import { type ReadonlySignal, useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { onNear, whilePrinted } from "../../device/near.ts";

/** So many rows are drawn or left out together. */
const ROWS = 6;

/** So many rows are a chapter: of one that is far not even the blocks are there. */
const CHAPTER = 12 * ROWS;

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
 * A long list of which only what is near the screen is drawn, in chapters of blocks that keep their height; on paper all of
 * it. They are counted from the oldest row, so that a new one changes the newest block alone.
 */
export function Blocks<T>({ rows, newestFirst = false, rowHeight, draw }: BlocksProps<T>) {
  const printed = useSignal(false);
  useEffect(
    () =>
      whilePrinted((isPrinted) => {
        printed.value = isPrinted;
      }),
    [],
  );
  const parts = (from: number, to: number, each: number, inside: Inside) => {
    const starts = Array.from({ length: Math.ceil((to - from) / each) }, (_, place) => from + place * each);
    return (newestFirst ? starts.toReversed() : starts).map((start) => {
      const end = Math.min(start + each, to);
      return (
        <Block
          key={start}
          stays={newestFirst ? end === rows.length : start === 0}
          printed={printed}
          height={(end - start) * rowHeight}
          draw={() => inside(start, end)}
        />
      );
    });
  };
  const list: Inside = (from, to) => {
    const part = rows.slice(from, to);
    return (
      <ol start={newestFirst ? to : from + 1} reversed={newestFirst}>
        {(newestFirst ? part.toReversed() : part).map(draw)}
      </ol>
    );
  };
  const blocks: Inside = (from, to) => parts(from, to, ROWS, list);
  return <div class="blocks">{parts(0, rows.length, CHAPTER, blocks)}</div>;
}

/** The rows from a place until before another. */
type Inside = (from: number, to: number) => ComponentChildren;

interface BlockProps {
  /** Drawn wherever the screen is. */
  readonly stays: boolean;
  readonly printed: ReadonlySignal<boolean>;
  readonly height: number;
  readonly draw: () => ComponentChildren;
}

function Block({ stays, printed, height, draw }: BlockProps) {
  const place = useRef<HTMLDivElement>(null);
  const drawn = useSignal(stays);
  const measured = useRef(height);
  useEffect(() => {
    const { current } = place;
    if (!current) return;
    return onNear(current, (seen) => {
      measured.current = seen.height;
      // What is being typed stays.
      drawn.value = seen.isNear || stays || current.contains(document.activeElement);
    });
  }, [stays]);
  const isDrawn = drawn.value || printed.value;
  return (
    <div ref={place} style={isDrawn ? undefined : { height: `${measured.current}px` }}>
      {isDrawn && draw()}
    </div>
  );
}
