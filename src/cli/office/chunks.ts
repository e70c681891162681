import type { Source, Unread } from "./sources.ts";

/** Sources that are judged together, and what could not be read on the way. */
export interface Chunk {
  readonly sources: readonly Source[];
  readonly unread: readonly Unread[];
}

const MOST_SOURCES = 32;
const MOST_BYTES = 4 * 1024 * 1024;

/** In handfuls: enough that handing them over costs little, few enough that memory stays flat. */
export async function* chunksOf(sources: AsyncIterable<Source | Unread>): AsyncGenerator<Chunk> {
  let found: Source[] = [];
  let unread: Unread[] = [];
  let bytes = 0;
  for await (const source of sources) {
    if ("problem" in source) unread.push(source);
    else {
      found.push(source);
      bytes += source.bytes.length;
    }
    if (found.length + unread.length < MOST_SOURCES && bytes < MOST_BYTES) continue;
    yield { sources: found, unread };
    [found, unread, bytes] = [[], [], 0];
  }
  if (found.length + unread.length > 0) yield { sources: found, unread };
}
