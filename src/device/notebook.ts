import Dexie, { type Table } from "dexie";
import type { Entry } from "../visit/entry.ts";
import type { Sheet } from "../visit/sheet.ts";
import type { Visit, VisitHead } from "../visit/visit.ts";
import { createBreather } from "./breather.ts";
import type { Clip } from "./clips/clip.ts";

/** What a validator makes of a stored value: the value, or one sentence that names the place and what was expected. */
export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: string };

/** Validators for all that comes back from the store; passed in, because adapters know the pure folders by type only. */
export interface Readers {
  readonly head: (value: unknown) => Read<VisitHead>;
  readonly entry: (value: unknown) => Read<Entry>;
  readonly sheet: (value: unknown) => Read<Sheet>;
}

/** Whole records, and one sentence for each that cannot be read any more. */
export interface Listing<T> {
  readonly whole: readonly T[];
  readonly problems: readonly string[];
}

/** The store on the device. Every promise resolves only when the change is on the disk, and rejects with nothing changed. */
export interface Notebook {
  /** Heads of all visits, newest first. */
  visits(): Promise<Listing<VisitHead>>;
  /** One visit with its entries in order. Rejects with NotebookError where it is missing or damaged. */
  visit(id: string): Promise<Visit>;
  /** Adds a whole visit. Rejects with NotebookError where its id is taken. */
  addVisit(visit: Visit): Promise<void>;
  /** Deletes a visit with its entries and its sound, for good: all or nothing. */
  dropVisit(id: string): Promise<void>;
  /** Adds entries to the end of a visit. Rejects with NotebookError where the first is not the next in line. */
  append(visitId: string, entries: readonly Entry[]): Promise<void>;
  sheets(): Promise<Listing<Sheet>>;
  /** Keeps a sheet in place of an earlier one with its id. Visits hold their own copies. */
  keepSheet(sheet: Sheet): Promise<void>;
  /** Deletes a sheet; visits keep their copies of it. */
  dropSheet(id: string): Promise<void>;
  setting(key: string): Promise<unknown>;
  keepSetting(key: string, value: unknown): Promise<void>;
  readonly clips: ClipShelf;
}

/** The sound of an utterance beside the first entry that it gave. */
export interface ClipRow extends Clip {
  readonly visitId: string;
  readonly seq: number;
  /** ISO 8601 in UTC. */
  readonly at: string;
}

/** The kept sound. It is no part of a visit: bundles are made without it. */
export interface ClipShelf {
  /** Keeps a clip if the stored setting still allows it, checked and written as one; whether it was kept. */
  keep(clip: ClipRow, key: string, allows: (setting: unknown) => boolean): Promise<boolean>;
  /** Places in a visit of the entries with a clip. */
  of(visitId: string): Promise<readonly number[]>;
  /** Null where there is none any more. */
  get(visitId: string, seq: number): Promise<Clip | null>;
  /** Deletes all clips from before a time, ISO 8601 in UTC with milliseconds; how many. */
  dropBefore(at: string): Promise<number>;
  /** Stores a setting and deletes all clips: both or neither. */
  dropAll(key: string, value: unknown): Promise<void>;
}

class NotebookError extends Error {
  override readonly name = "NotebookError";
}

interface EntryRow {
  readonly visitId: string;
  readonly seq: number;
  readonly entry: Entry;
}

class Store extends Dexie {
  declare readonly visits: Table<VisitHead, string>;
  declare readonly entries: Table<EntryRow, [string, number]>;
  declare readonly sheets: Table<Sheet, string>;
  declare readonly settings: Table<{ key: string; value: unknown }, string>;
  declare readonly clips: Table<ClipRow, [string, number]>;

  constructor(name: string) {
    // Strict: the browser reports success only after the data has reached the disk.
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({ visits: "id", entries: "[visitId+seq]", sheets: "id", settings: "key" });
    this.version(2).stores({ clips: "[visitId+seq], at" });
  }
}

/** Opens the notebook. Rejects with NotebookError where the browser gives no storage. */
export async function openNotebook(readers: Readers, name = "burnerside"): Promise<Notebook> {
  const store = new Store(name);
  try {
    await store.open();
  } catch (error) {
    throw new NotebookError(`The browser gives no storage for the notebook: ${reasonOf(error)}.`);
  }
  const rowsOf = (visitId: string) =>
    store.entries.where("[visitId+seq]").between([visitId, Dexie.minKey], [visitId, Dexie.maxKey]);

  return {
    async visits() {
      const listing = list(await store.visits.toArray(), "Visit", readers.head);
      return {
        ...listing,
        whole: [...listing.whole].sort((a, b) => b.startedAt.localeCompare(a.startedAt)),
      };
    },
    async visit(id) {
      const stored = await store.visits.get(id);
      if (stored === undefined) throw new NotebookError(`No visit ${id} is in the notebook.`);
      const head = whole(readers.head(stored), `Visit ${id}`);
      const rows = await rowsOf(id).toArray();
      const breathe = createBreather();
      const entries: Entry[] = [];
      for (const row of rows) {
        entries.push(whole(readers.entry(row.entry), `Visit ${id}, entry ${row.seq}`));
        await breathe();
      }
      return { format: "burnerside-visit/1", head, entries };
    },
    async addVisit(visit) {
      await store.transaction("rw", store.visits, store.entries, async () => {
        if (await store.visits.get(visit.head.id)) {
          throw new NotebookError("This visit is in the notebook already; nothing was changed.");
        }
        await store.visits.add(visit.head);
        await store.entries.bulkAdd(rows(visit.head.id, visit.entries));
      });
    },
    async dropVisit(id) {
      const { visits, entries, clips } = store;
      await store.transaction("rw", visits, entries, clips, async () => {
        await visits.delete(id);
        for (const table of [entries, clips]) {
          await table.where("[visitId+seq]").between([id, Dexie.minKey], [id, Dexie.maxKey]).delete();
        }
      });
    },
    async append(visitId, entries) {
      const [first] = entries;
      if (!first) return;
      await store.transaction("rw", store.entries, async () => {
        const last = await rowsOf(visitId).last();
        const next = (last?.seq ?? -1) + 1;
        if (first.seq !== next) {
          throw new NotebookError(
            `Entry ${first.seq} is not the next of this visit (${next}): another window has added to it. Reload this one.`,
          );
        }
        await store.entries.bulkAdd(rows(visitId, entries));
      });
    },
    async sheets() {
      return list(await store.sheets.toArray(), "Limits sheet", readers.sheet);
    },
    async keepSheet(sheet) {
      await store.sheets.put(sheet);
    },
    async dropSheet(id) {
      await store.sheets.delete(id);
    },
    async setting(key) {
      return (await store.settings.get(key))?.value;
    },
    async keepSetting(key, value) {
      await store.settings.put({ key, value });
    },
    clips: clipShelf(store),
  };
}

function clipShelf(store: Store): ClipShelf {
  const { clips, settings } = store;
  const both = <T>(work: () => Promise<T>): Promise<T> => store.transaction("rw", clips, settings, work);
  return {
    keep: (clip, key, allows) =>
      both(async () => {
        const allowed = allows((await settings.get(key))?.value);
        if (allowed) await clips.put(clip);
        return allowed;
      }),
    async of(visitId) {
      const keys = await clips
        .where("[visitId+seq]")
        .between([visitId, Dexie.minKey], [visitId, Dexie.maxKey])
        .primaryKeys();
      return keys.map(([, seq]) => seq);
    },
    async get(visitId, seq) {
      const row = await clips.get([visitId, seq]);
      return row ? { type: row.type, data: row.data } : null;
    },
    dropBefore: (at) => store.transaction("rw", clips, () => clips.where("at").below(at).delete()),
    dropAll: (key, value) =>
      both(async () => {
        await settings.put({ key, value });
        await clips.clear();
      }),
  };
}

/** One sentence's worth of why a write failed. */
export function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  // Dexie puts the platform's own error inside its own.
  const inner = (error as { inner?: unknown }).inner;
  const named = inner instanceof Error ? inner : error;
  if (named.name === "QuotaExceededError") return "the device is out of space for it";
  return (named.message || named.name).replace(/\.$/, "");
}

function rows(visitId: string, entries: readonly Entry[]): EntryRow[] {
  return entries.map((entry) => ({ visitId, seq: entry.seq, entry }));
}

function list<T>(stored: readonly unknown[], name: string, read: (value: unknown) => Read<T>): Listing<T> {
  const whole: T[] = [];
  const problems: string[] = [];
  for (const value of stored) {
    const result = read(value);
    if (result.ok) whole.push(result.value);
    else problems.push(`${name} ${idOf(value)} cannot be read: ${result.problem}`);
  }
  return { whole, problems };
}

function idOf(value: unknown): string {
  return typeof value === "object" && value !== null && "id" in value ? String(value.id) : "without an id";
}

function whole<T>(result: Read<T>, place: string): T {
  if (!result.ok) throw new NotebookError(`${place} cannot be read: ${result.problem}`);
  return result.value;
}
