import type { Notebook } from "../../device/notebook/notebook.ts";
import type { HandedRow } from "../../device/notebook/tables.ts";
import { troubleOf } from "../../device/notebook/trouble.ts";
import type { DoneMark } from "../../device/office/store.ts";
import { sha256 } from "../../device/signing/sha256.ts";
import { DAY_MS, epochMs } from "../../measure/instant.ts";
import { readBackup } from "../../record/backup/read.ts";
import type { Item } from "../../record/backup/read-line.ts";
import { bundleOf } from "../../record/bundle.ts";
import type { Finding } from "../../record/integrity/finding.ts";
import { relationOf } from "../../record/office/revision.ts";
import { MOST_SIGNATURES } from "../../visit/integrity.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Settings } from "../settings.ts";
import { titleOf } from "../start/visit-title.ts";
import { noteHanded } from "./note-handed.ts";
import { SoundBack } from "./restore-sound.ts";
import { NOTHING_RESTORED, type Restored, type VisitFate } from "./restored.ts";
import { backedUpSettings } from "./settings.ts";

/** What the office takes in of a backup: through its own door, so that it settles what it has already. */
export interface OfficeDoor {
  /** Takes in exports as files; how many were new, were known, and were refused. */
  take(
    files: readonly File[],
  ): Promise<{ readonly added: number; readonly same: number; readonly refused: number }>;
  /** Marks what is not marked here yet; how many that were. */
  markDone(marks: readonly DoneMark[]): Promise<number>;
}

export interface RestoreWorld {
  readonly notebook: Pick<
    Notebook,
    | "visits"
    | "bundle"
    | "addVisit"
    | "extend"
    | "sheets"
    | "keepSheet"
    | "clips"
    | "setting"
    | "handed"
    | "markHanded"
  >;
  /** What can be said of a visit's log. Never rejects. */
  readonly examine: (visit: Visit) => Promise<{ readonly finding: Finding | null }>;
  /** Opened where a backup has something for it. */
  readonly office: () => Promise<OfficeDoor>;
  readonly settings: () => Settings;
  /** Rejects where they cannot be stored. */
  readonly changeSettings: (change: Partial<Settings>) => Promise<void>;
  readonly now: () => string;
  readonly breathe: () => Promise<void>;
  readonly reason: (error: unknown) => string;
}

/** So many exports at once, or so many letters of them, are handed to the office. */
const OFFICE_FILES = 200;
const OFFICE_LETTERS = 8 * 1024 * 1024;

/**
 * Puts what can be read of a backup in its place: each visit whole or not at all, and nothing that is here is ever overwritten. What
 * was damaged is passed over (it was told when the backup was looked at). Where storing fails it ends there; what is stored by then
 * stays, and is told. Never rejects.
 */
export async function restore(
  lines: AsyncIterable<Uint8Array>,
  withSettings: boolean,
  world: RestoreWorld,
  tell: (soFar: Restored) => void,
): Promise<Restored> {
  const run = new Run(world, withSettings);
  try {
    await run.begin();
    const reading = readBackup(lines, sha256, world.reason);
    for await (const read of reading) {
      if (read.kind === "damage") continue;
      await run.take(read.item);
      tell(run.restored);
      await world.breathe();
    }
    await run.end();
  } catch (error) {
    run.stop(world.reason(error));
  }
  return run.restored;
}

class Run {
  #restored: Restored = NOTHING_RESTORED;
  readonly #world: RestoreWorld;
  readonly #withSettings: boolean;
  #here = new Set<string>();
  #sheets = new Map<string, Sheet>();
  #handed = new Map<string, HandedRow>();
  readonly #sound: SoundBack;
  /** Noted at the end, as one. */
  readonly #handedNow: HandedRow[] = [];
  #office: File[] = [];
  #officeLetters = 0;
  readonly #done: DoneMark[] = [];

  constructor(world: RestoreWorld, withSettings: boolean) {
    this.#world = world;
    this.#withSettings = withSettings;
    const { notebook, settings, now } = world;
    const oldest = () => epochMs(now()) - settings().clipDays * DAY_MS;
    this.#sound = new SoundBack({ clips: notebook.clips, oldest });
  }

  get restored(): Restored {
    return { ...this.#restored, clips: this.#sound.counts };
  }

  async begin(): Promise<void> {
    const { notebook } = this.#world;
    const [visits, sheets, handed] = await Promise.all([
      notebook.visits(),
      notebook.sheets(),
      notebook.handed(),
    ]);
    this.#here = new Set(visits.whole.map(({ id }) => id));
    this.#sheets = new Map(sheets.whole.map((sheet) => [sheet.id, sheet]));
    this.#handed = new Map(handed.map((row) => [row.visitId, row]));
  }

  async take(item: Item): Promise<void> {
    switch (item.kind) {
      case "visit":
        return this.#visit(item.visit);
      case "sheet":
        return this.#sheet(item.sheet);
      case "settings":
        return this.#settings(item.settings);
      case "clip":
        return this.#sound.take(item);
      case "office-visit":
        return this.#officeVisit(item.file, item.visit);
      case "office-done": {
        const { key, visitId, at, by } = item;
        this.#done.push({ key, visitId, at, by });
        return;
      }
      case "head":
      case "end":
        return;
    }
  }

  async end(): Promise<void> {
    await this.#sound.store();
    await noteHanded(this.#world.notebook, this.#handedNow);
    await this.#toOffice();
    if (this.#done.length === 0) return;
    const marked = await (await this.#world.office()).markDone(this.#done);
    this.#change({ officeDone: this.restored.officeDone + marked });
  }

  stop(why: string): void {
    this.#change({ stopped: why });
  }

  async #visit(visit: Visit): Promise<void> {
    const { head, entries } = visit;
    const fate = await this.#settled(visit);
    this.#change({ visits: { ...this.restored.visits, [fate]: this.restored.visits[fate] + 1 } });
    if (fate === "parted" || fate === "alteredThere" || fate === "unreadable") {
      this.#tell({ kind: fate, title: titleOf(head), startedAt: head.startedAt, zone: head.zone });
      return;
    }
    if (fate !== "same" && (await this.#isAltered(visit)))
      this.#tell({ kind: "altered", title: titleOf(head), startedAt: head.startedAt, zone: head.zone });
    const before = this.#handed.get(head.id);
    // It lies in the backup: that far it is not on this device only.
    if (!before || before.entries < entries.length)
      this.#handedNow.push({ visitId: head.id, entries: entries.length, at: this.#world.now() });
    await this.#sound.expect(head.id);
  }

  async #settled(visit: Visit): Promise<VisitFate> {
    const { notebook } = this.#world;
    const { id } = visit.head;
    if (!this.#here.has(id) && (await this.#isAdded(visit))) return "added";
    let here: Visit;
    try {
      here = (await notebook.bundle(id)).visit;
    } catch {
      return "unreadable";
    }
    if (!areLinkedAlike(visit, here)) return "parted";
    switch (relationOf(visit, here)) {
      case "same":
        return "same";
      case "older":
        return "longerHere";
      case "forked":
        return "parted";
      case "newer":
        // A file that somebody changed must not spoil what is here.
        if (await this.#spoils(visit, here)) return "alteredThere";
        await notebook.extend(visit);
        return "extended";
    }
  }

  /** False where one with its id is here after all: its head cannot be read, or another window has stored it meanwhile. */
  async #isAdded(visit: Visit): Promise<boolean> {
    try {
      await this.#world.notebook.addVisit(visit, "file");
    } catch (error) {
      if (troubleOf(error) === "taken") return false;
      throw error;
    }
    this.#here.add(visit.head.id);
    return true;
  }

  /** Whether what is here would be worth less for what the backup adds to it. */
  async #spoils(visit: Visit, here: Visit): Promise<boolean> {
    const signatures = [visit, here].flatMap(({ integrity }) => integrity?.signatures ?? []);
    if (new Set(signatures).size > MOST_SIGNATURES) return true;
    return (await this.#isAltered(visit)) && !(await this.#isAltered(here));
  }

  async #isAltered(visit: Visit): Promise<boolean> {
    return (await this.#world.examine(visit)).finding?.kind === "altered";
  }

  async #sheet(sheet: Sheet): Promise<void> {
    const here = this.#sheets.get(sheet.id);
    const { sheets } = this.restored;
    if (here) {
      const same = JSON.stringify(here) === JSON.stringify(sheet);
      if (same) return this.#change({ sheets: { ...sheets, same: sheets.same + 1 } });
      this.#tell({ kind: "other-sheet", title: sheet.title });
      return this.#change({ sheets: { ...sheets, other: sheets.other + 1 } });
    }
    await this.#world.notebook.keepSheet(sheet);
    this.#sheets.set(sheet.id, sheet);
    this.#change({ sheets: { ...sheets, added: sheets.added + 1 } });
  }

  async #settings(stored: unknown): Promise<void> {
    if (!this.#withSettings) return this.#change({ settings: "left" });
    const change = backedUpSettings(stored);
    if (!change) return this.#change({ settings: "unreadable" });
    await this.#world.changeSettings(change);
    this.#change({ settings: "taken" });
  }

  async #officeVisit(name: string, visit: Visit): Promise<void> {
    const text = JSON.stringify(bundleOf(visit));
    // The office takes a file by its ending, and these are a visit each.
    this.#office.push(new File([text], name.endsWith(".json") ? name : `${name}.json`));
    this.#officeLetters += text.length;
    if (this.#office.length >= OFFICE_FILES || this.#officeLetters >= OFFICE_LETTERS) await this.#toOffice();
  }

  async #toOffice(): Promise<void> {
    const files = this.#office;
    if (files.length === 0) return;
    this.#office = [];
    this.#officeLetters = 0;
    const taken = await (await this.#world.office()).take(files);
    const { office } = this.restored;
    this.#change({
      office: {
        added: office.added + taken.added,
        same: office.same + taken.same,
        refused: office.refused + taken.refused,
      },
    });
  }

  #change(change: Partial<Restored>): void {
    this.#restored = { ...this.#restored, ...change };
  }

  #tell(one: Restored["told"][number]): void {
    this.#change({ told: [...this.restored.told, one] });
  }
}

/** Whether two logs were hashed alike as far as both go; where one has no links nothing speaks against it. */
function areLinkedAlike(a: Visit, b: Visit): boolean {
  const [one, other] = [a.integrity?.links ?? [], b.integrity?.links ?? []];
  return one.every((link, place) => other[place] === undefined || other[place] === link);
}
