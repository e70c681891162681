import Dexie, { type Table } from "dexie";
import type { Entry } from "../../visit/entry.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { VisitHead } from "../../visit/visit.ts";
import { newerProblem } from "../newer.ts";
import type { DeviceKey } from "../signing/device-key.ts";
import type { VoiceProfile } from "../spotter/voice-profile.ts";
import type { ClipRow } from "./clip-shelf.ts";
import { NotebookError } from "./trouble.ts";

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

/** The last version that this program knows. */
export const VERSION = 4;

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
  declare readonly voices: Table<VoiceProfile, string>;

  constructor(name: string) {
    // Strict: the browser reports success only after the data has reached the disk.
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({ visits: "id", entries: "[visitId+seq]", sheets: "id", settings: "key" });
    this.version(2).stores({ clips: "[visitId+seq], at" });
    this.version(3).stores({ integrity: "visitId", handed: "visitId", keys: "id" });
    this.version(VERSION).stores({ voices: "id" });
    // Also when it is opened again: meanwhile another window may have loaded a newer program.
    this.on("ready", () => refuseNewer(this.backendDB().version), true);
  }

  /** Opens it. Where that fails the next thing that is asked of it tries again; Dexie alone never would. */
  override open() {
    return super.open().catch((error: unknown) => {
      // Once all that waits has been told why.
      setTimeout(() => this.close({ disableAutoOpen: false }), 0);
      throw error;
    });
  }

  /** The rows of a visit's entries from a place on, in order. */
  entriesOf(visitId: string, seq = 0) {
    return this.entries.where("[visitId+seq]").between([visitId, seq], [visitId, Dexie.maxKey]);
  }

  clipsOf(visitId: string) {
    return this.clips.where("[visitId+seq]").between([visitId, Dexie.minKey], [visitId, Dexie.maxKey]);
  }
}

/** Throws NotebookError for a notebook that a newer program has laid out. */
export function refuseNewer(native: number | undefined): void {
  const problem = newerProblem("notebook", native, VERSION);
  if (problem !== null) throw new NotebookError(problem, "newer");
}
