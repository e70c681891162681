import Dexie, { type Table } from "dexie";
import type { Entry } from "../../visit/entry.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { VisitHead } from "../../visit/visit.ts";
import type { DeviceKey } from "../signing/device-key.ts";
import type { ClipRow } from "./clip-shelf.ts";

export interface EntryRow {
  readonly visitId: string;
  readonly seq: number;
  readonly entry: Entry;
  /** Of this entry and all before it; left out of entries that were there before the log was linked here (`IntegrityRow`). */
  readonly link?: string;
}

/** What a visit's log is checked by, beside the links of the entries that were made here. */
export interface IntegrityRow {
  readonly visitId: string;
  /** Entries before this place came in a file, or were here before logs were linked. */
  readonly ownFrom: number;
  /** The links of the head and of the entries before `ownFrom`, as they came, or as they were worked out here. */
  readonly links: readonly string[];
  readonly signatures: readonly string[];
}

/** Up to where a visit was last handed over as a file that can bring it back. */
export interface HandedRow {
  readonly visitId: string;
  /** How many entries, from the first. */
  readonly entries: number;
  /** ISO 8601 in UTC. */
  readonly at: string;
}

/** The database of the notebook. Versions only ever grow; each is tested from a stored fixture. */
export class Tables extends Dexie {
  declare readonly visits: Table<VisitHead, string>;
  declare readonly entries: Table<EntryRow, [string, number]>;
  declare readonly sheets: Table<Sheet, string>;
  declare readonly settings: Table<{ key: string; value: unknown }, string>;
  declare readonly clips: Table<ClipRow, [string, number]>;
  declare readonly integrity: Table<IntegrityRow, string>;
  declare readonly handed: Table<HandedRow, string>;
  declare readonly keys: Table<DeviceKey, string>;

  constructor(name: string) {
    // Strict: the browser reports success only after the data has reached the disk.
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({ visits: "id", entries: "[visitId+seq]", sheets: "id", settings: "key" });
    this.version(2).stores({ clips: "[visitId+seq], at" });
    this.version(3).stores({ integrity: "visitId", handed: "visitId", keys: "id" });
  }

  /** The rows of a visit's entries, in order. */
  entriesOf(visitId: string) {
    return this.entries.where("[visitId+seq]").between([visitId, Dexie.minKey], [visitId, Dexie.maxKey]);
  }

  clipsOf(visitId: string) {
    return this.clips.where("[visitId+seq]").between([visitId, Dexie.minKey], [visitId, Dexie.maxKey]);
  }
}
