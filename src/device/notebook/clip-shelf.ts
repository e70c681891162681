import type { Clip } from "../clips/clip.ts";
import type { Tables } from "./tables.ts";

/** The sound of an utterance beside the first entry that it gave. */
export interface ClipRow extends Clip {
  readonly visitId: string;
  readonly seq: number;
  /** ISO 8601 in UTC. */
  readonly at: string;
  /** Who spoke: the id of a voice of this device (`VoiceProfile`). Left out where that was not chosen, and of older clips. */
  readonly speaker?: string;
}

/** The kept sound. It is no part of a visit: bundles are made without it. */
export interface ClipShelf {
  /** Keeps a clip if the stored setting still allows it, checked and written as one; whether it was kept. */
  keep(clip: ClipRow, key: string, allows: (setting: unknown) => boolean): Promise<boolean>;
  /** The same for several: all of them or none. */
  keepAll(rows: readonly ClipRow[], key: string, allows: (setting: unknown) => boolean): Promise<boolean>;
  /** Places in a visit of the entries with a clip. */
  of(visitId: string): Promise<readonly number[]>;
  /** Null where there is none any more. */
  get(visitId: string, seq: number): Promise<Clip | null>;
  /** All of a visit, in the order of its entries. */
  rowsOf(visitId: string): Promise<readonly ClipRow[]>;
  /** How many there are of all visits. */
  count(): Promise<number>;
  /** Deletes all clips from before a time, ISO 8601 in UTC with milliseconds; how many. */
  dropBefore(at: string): Promise<number>;
  /** Stores a setting and deletes all clips: both or neither. */
  dropAll(key: string, value: unknown): Promise<void>;
}

export function clipShelf(tables: Tables): ClipShelf {
  const { clips, settings } = tables;
  const both = <T>(work: () => Promise<T>): Promise<T> => tables.transaction("rw", clips, settings, work);
  const keepAll: ClipShelf["keepAll"] = (rows, key, allows) =>
    both(async () => {
      const allowed = allows((await settings.get(key))?.value);
      if (allowed) await clips.bulkPut([...rows]);
      return allowed;
    });
  return {
    keep: (clip, key, allows) => keepAll([clip], key, allows),
    keepAll,
    async of(visitId) {
      return (await tables.clipsOf(visitId).primaryKeys()).map(([, seq]) => seq);
    },
    async get(visitId, seq) {
      const row = await clips.get([visitId, seq]);
      return row ? { type: row.type, data: row.data } : null;
    },
    rowsOf: (visitId) => tables.clipsOf(visitId).toArray(),
    count: () => clips.count(),
    dropBefore: (at) => tables.transaction("rw", clips, () => clips.where("at").below(at).delete()),
    dropAll: (key, value) =>
      both(async () => {
        await settings.put({ key, value });
        await clips.clear();
      }),
  };
}
