import { pause } from "./clock.ts";
import { fetchEach, type Missed } from "./fetch-each.ts";

/** What is fetched when it is first used, or ahead of that to have it where there is no network. */
export const AHEAD_SETS = ["ear", "voice", "pdf", "office"] as const;
export type AheadSet = (typeof AHEAD_SETS)[number];

/** A file of a set; its address from the page's, and its size in bytes. */
export interface AheadFile {
  readonly file: string;
  readonly bytes: number;
}

/** The cache of a set, which the service worker looks into first. */
export function cacheNameOf(set: AheadSet): string {
  return `burnerside-${set}`;
}

/** The kept files of the sets. Every promise rejects where the browser keeps none, or has no room. */
export interface AheadCache {
  /** Those of the files that are kept. */
  kept(set: AheadSet, files: readonly AheadFile[]): Promise<readonly AheadFile[]>;
  /**
   * Fetches and keeps what is not kept yet, one file after the other; one that fails holds up none of the others, and is
   * tried again after them. What came stays, also where it rejects because the signal aborts.
   * @param received told of each further piece, in bytes; below zero where a file broke off and its pieces are void
   * @returns what could not be had
   */
  fetch(
    set: AheadSet,
    files: readonly AheadFile[],
    received: (bytes: number) => void,
    signal: AbortSignal,
  ): Promise<readonly Missed<AheadFile>[]>;
  /** Deletes what is none of the files: left from an earlier version. */
  sweep(set: AheadSet, files: readonly AheadFile[]): Promise<void>;
}

export function createAheadCache(): AheadCache {
  const addressOf = ({ file }: AheadFile) => new URL(file, document.baseURI).href;
  const open = (set: AheadSet) => caches.open(cacheNameOf(set));
  const kept: AheadCache["kept"] = async (set, files) => {
    const cache = await open(set);
    const found = new Set((await cache.keys()).map(({ url }) => url));
    return files.filter((file) => found.has(addressOf(file)));
  };
  return {
    kept,
    async fetch(set, files, received, signal) {
      const cache = await open(set);
      const have = new Set(await kept(set, files));
      const wanted = files.filter((file) => !have.has(file));
      const fetchOne = async (file: AheadFile): Promise<void> => {
        const address = addressOf(file);
        let came = 0;
        const count = (bytes: number) => {
          came += bytes;
          received(bytes);
        };
        try {
          // The query keeps the service worker out of it, which would keep it a second time.
          const response = await fetch(`${address}?ahead`, { signal });
          if (!response.ok || !response.body) throw new Error(`${file.file}: status ${response.status}`);
          const counted = response.body.pipeThrough(counting(count));
          const type = response.headers.get("content-type") ?? "application/octet-stream";
          // The body is plain by now: no header of how it came.
          await cache.put(address, new Response(counted, { headers: { "content-type": type } }));
        } catch (error) {
          received(-came);
          throw error;
        }
      };
      return fetchEach(wanted, fetchOne, pause, signal);
    },
    async sweep(set, files) {
      const cache = await open(set);
      const known = new Set(files.map(addressOf));
      for (const { url } of await cache.keys()) if (!known.has(url)) await cache.delete(url);
    },
  };
}

function counting(received: (bytes: number) => void): TransformStream<Uint8Array, Uint8Array> {
  return new TransformStream({
    transform(piece, controller) {
      received(piece.length);
      controller.enqueue(piece);
    },
  });
}
