import type { Entry } from "../../visit/entry.ts";
import type { Integrity } from "../../visit/integrity.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { Visit, VisitHead } from "../../visit/visit.ts";
import { createBreather } from "../breather.ts";
import { nativeVersion } from "../newer.ts";
import type { DeviceKey } from "../signing/device-key.ts";
import { type ClipShelf, clipShelf } from "./clip-shelf.ts";
import { Linker, type Linking } from "./linker.ts";
import { type HandedRow, refuseNewer, Tables } from "./tables.ts";
import { NotebookError, reasonOf, troubleOf } from "./trouble.ts";
import { type VoiceShelf, voiceShelf } from "./voice-shelf.ts";

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

/** A visit to hand over, and the place up to which its entries came from elsewhere (`Statement.ownFrom`). */
export interface Bundle {
  readonly visit: Visit;
  readonly ownFrom: number;
}

/** A visit of which entries are on this device only, and since when: ISO 8601. */
export interface Unhanded {
  readonly visitId: string;
  readonly since: string;
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
  /** One visit with its entries in order, to work on. Rejects with NotebookError where it is missing or damaged. */
  visit(id: string): Promise<Visit>;
  /** The same with what its log is checked by, as far as the platform has cryptography: to hand over. */
  bundle(id: string): Promise<Bundle>;
  /** Adds a whole visit, begun here or from a file. Rejects with NotebookError where its id is taken. */
  addVisit(visit: Visit, from: "here" | "file"): Promise<void>;
  /**
   * Adds the entries that a longer copy of a visit has beyond those that are here, and takes over what its log is checked by: both or
   * neither. Rejects with NotebookError where what is here is not the beginning of it, to its last entry.
   */
  extend(longer: Visit): Promise<void>;
  /** Deletes a visit with its entries, its sound and its signatures, for good: all or nothing. */
  dropVisit(id: string): Promise<void>;
  /** Adds entries to the end of a visit. Rejects with NotebookError where it is gone, or the first is not the next in line. */
  append(visitId: string, entries: readonly Entry[]): Promise<void>;
  /** The entries of a visit from a place on, none where there are none. Rejects with NotebookError where one is damaged. */
  entriesFrom(visitId: string, seq: number): Promise<readonly Entry[]>;
  /** Tells whenever another window has added entries to a visit, until the returned function is called. */
  onAdded(tell: (visitId: string) => void): () => void;
  /** Adds a signature of a visit's log. */
  keepSignature(visitId: string, signature: string): Promise<void>;
  /** The key of this device, made when it is first asked for. Rejects where the platform gives none. */
  deviceKey(make: () => Promise<DeviceKey>): Promise<DeviceKey>;
  /** What was last handed over of each visit, as a file that can bring it back. */
  handed(): Promise<readonly HandedRow[]>;
  /** Visits with entries that were never handed over so, and when the first of these was made (ISO 8601). */
  unhanded(): Promise<readonly Unhanded[]>;
  /** Notes what was handed over. */
  markHanded(rows: readonly HandedRow[]): Promise<void>;
  sheets(): Promise<Listing<Sheet>>;
  /** Keeps a sheet in place of an earlier one with its id. Visits hold their own copies. */
  keepSheet(sheet: Sheet): Promise<void>;
  /** Deletes a sheet; visits keep their copies of it. */
  dropSheet(id: string): Promise<void>;
  setting(key: string): Promise<unknown>;
  keepSetting(key: string, value: unknown): Promise<void>;
  readonly clips: ClipShelf;
  readonly voices: VoiceShelf;
}

/**
 * Opens the notebook. Rejects with NotebookError where the browser gives no storage, or a newer program has laid it out.
 * @param linking null where the platform has no cryptography
 * @param blocked told where another window has to be closed first; it goes on by itself then
 */
export async function openNotebook(
  readers: Readers,
  linking: Linking | null,
  name = "burnerside",
  blocked: () => void = () => {},
): Promise<Notebook> {
  const tables = new Tables(name);
  tables.on("blocked", blocked);
  try {
    // Before anything is opened: what is not known here is not to be repaired either.
    refuseNewer(await nativeVersion(name));
    await tables.open();
  } catch (error) {
    if (troubleOf(error) === "newer") throw error;
    throw new NotebookError(`The browser gives no storage for the notebook: ${reasonOf(error)}.`);
  }
  const channel = new BroadcastChannel(name);
  const { visits, entries, sheets, settings, clips, integrity, handed, keys } = tables;
  const linker = new Linker(tables, linking);

  const visit = async (id: string): Promise<Visit> => {
    const stored = await visits.get(id);
    if (stored === undefined) throw new NotebookError(`No visit ${id} is in the notebook.`, "gone");
    const head = whole(readers.head(stored), `Visit ${id}`);
    return { format: "burnerside-visit/1", head, entries: await entriesFrom(id, 0) };
  };

  const entriesFrom = async (id: string, seq: number): Promise<Entry[]> => {
    const breathe = createBreather();
    const read: Entry[] = [];
    for (const row of await tables.entriesOf(id, seq).toArray()) {
      read.push(whole(readers.entry(row.entry), `Visit ${id}, entry ${row.seq}`));
      await breathe();
    }
    return read;
  };

  return {
    async visits() {
      const listing = list(await visits.toArray(), "Visit", readers.head);
      return {
        ...listing,
        whole: [...listing.whole].sort((a, b) => b.startedAt.localeCompare(a.startedAt)),
      };
    },
    visit,
    async bundle(id) {
      const row = await linker.integrity(id, () => visit(id));
      const read = await visit(id);
      if (!row) return { visit: read, ownFrom: 0 };
      const { ownFrom, links, signatures } = row;
      const own = (await tables.entriesOf(id).toArray()).slice(ownFrom, read.entries.length);
      // Added where nothing could be linked: with the links of a part it would look like a log that was tampered with.
      if (own.some(({ link }) => link === undefined)) return { visit: read, ownFrom: read.entries.length };
      const checked: Integrity = {
        links: [...links, ...own.flatMap(({ link }) => link ?? [])],
        signatures: [...signatures],
      };
      return { visit: { ...read, integrity: checked }, ownFrom };
    },
    async addVisit(visit, from) {
      const fresh = await (from === "here" ? linker.begun(visit) : linker.brought(visit));
      linker.forget(visit.head.id);
      await tables.transaction("rw", visits, entries, integrity, async () => {
        if (await visits.get(visit.head.id)) {
          throw new NotebookError("This visit is in the notebook already; nothing was changed.", "taken");
        }
        await visits.add(visit.head);
        await entries.bulkAdd([...fresh.rows]);
        if (fresh.integrity) await integrity.put(fresh.integrity);
      });
      linker.stored(fresh.rows);
    },
    async dropVisit(id) {
      linker.forget(id);
      await tables.transaction("rw", [visits, entries, clips, integrity, handed], async () => {
        await visits.delete(id);
        await tables.entriesOf(id).delete();
        await tables.clipsOf(id).delete();
        await integrity.delete(id);
        await handed.delete(id);
      });
    },
    async append(visitId, added) {
      const [first] = added;
      if (!first) return;
      const { rows, from } = await linker.added(visitId, added, () => visit(visitId));
      await tables.transaction("rw", visits, entries, integrity, async () => {
        if (!(await visits.get(visitId)))
          throw new NotebookError(
            "This visit is not in the notebook any more: what was stored is gone",
            "gone",
          );
        const last = await tables.entriesOf(visitId).last();
        const next = (last?.seq ?? -1) + 1;
        if (first.seq !== next) {
          throw new NotebookError(
            `Entry ${first.seq} is not the next of this visit (${next}): another window has added to it.`,
            "overtaken",
          );
        }
        if (from !== null && !(await linker.endsIn(visitId, last, from))) {
          linker.forget(visitId);
          throw new NotebookError(
            "Another window has put another log of this visit in its place: try again.",
          );
        }
        await entries.bulkAdd([...rows]);
      });
      linker.stored(rows);
      channel.postMessage(visitId);
    },
    entriesFrom,
    onAdded(tell) {
      const told = ({ data }: MessageEvent<unknown>) => {
        if (typeof data === "string") tell(data);
      };
      channel.addEventListener("message", told);
      return () => channel.removeEventListener("message", told);
    },
    async extend(longer) {
      const { id } = longer.head;
      const fresh = await linker.brought(longer);
      const { signatures = [] } = (await linker.integrity(id, () => visit(id))) ?? {};
      await tables.transaction("rw", visits, entries, integrity, async () => {
        const last = await tables.entriesOf(id).last();
        const stored = last && readers.entry(last.entry);
        // Both come from a reader, so that their fields stand in one order.
        const begins =
          stored?.ok && JSON.stringify(stored.value) === JSON.stringify(longer.entries[stored.value.seq]);
        if (!(await visits.get(id)) || (last && !begins))
          throw new NotebookError("What is here was changed meanwhile; nothing was added to it.");
        await entries.bulkAdd(fresh.rows.slice((last?.seq ?? -1) + 1));
        if (!fresh.integrity) return;
        const all = new Set([...signatures, ...fresh.integrity.signatures]);
        await integrity.put({ ...fresh.integrity, signatures: [...all] });
      });
      linker.forget(id);
    },
    async keepSignature(visitId, signature) {
      await tables.transaction("rw", integrity, async () => {
        const row = await integrity.get(visitId);
        if (row) await integrity.put({ ...row, signatures: [...row.signatures, signature] });
      });
    },
    async deviceKey(make) {
      const here = await keys.toCollection().first();
      if (here) return here;
      const made = await make();
      // Another window may have made one meanwhile: the first stays.
      return tables.transaction("rw", keys, async () => {
        const first = await keys.toCollection().first();
        if (!first) await keys.add(made);
        return first ?? made;
      });
    },
    handed: () => handed.toArray(),
    async unhanded() {
      const ids = await visits.toCollection().primaryKeys();
      const rows = await handed.bulkGet(ids);
      const first = await entries.bulkGet(
        ids.map((id, place): [string, number] => [id, rows[place]?.entries ?? 0]),
      );
      return first.flatMap((row) => {
        const read = row && readers.entry(row.entry);
        return row && read?.ok ? [{ visitId: row.visitId, since: read.value.at }] : [];
      });
    },
    async markHanded(rows) {
      // Of many at once outside of a transaction, some may be stored although one fails.
      await tables.transaction("rw", handed, () => handed.bulkPut([...rows]));
    },
    async sheets() {
      return list(await sheets.toArray(), "Limits sheet", readers.sheet);
    },
    async keepSheet(sheet) {
      await sheets.put(sheet);
    },
    async dropSheet(id) {
      await sheets.delete(id);
    },
    async setting(key) {
      return (await settings.get(key))?.value;
    },
    async keepSetting(key, value) {
      await settings.put({ key, value });
    },
    clips: clipShelf(tables),
    voices: voiceShelf(tables),
  };
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
