import { signal } from "@preact/signals";
import { download } from "../../device/files.ts";
import { canShareFiles, type SharedFile, shareFile } from "../../device/share.ts";
import { workbookBytes } from "../../device/workbook.ts";
import { exportVisit } from "../../record/bundle.ts";
import { calendarOf, openFollowUpsOf } from "../../record/export/calendar.ts";
import { csvOf } from "../../record/export/csv.ts";
import type { DoneMarks } from "../../record/export/done-marks.ts";

import { metadataOf } from "../../record/export/metadata.ts";
import { READINGS } from "../../record/export/readings.ts";
import { cutNotice, workbookOf } from "../../record/export/workbook.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Signed } from "../safekeeping/signing.ts";
import { fileNameOf } from "../start/visit-title.ts";
import { ABOUT, EXPORT_KINDS, type ExportKind } from "./kinds.ts";
import { logNotice } from "./log-notice.ts";

/** What handing over a visit needs of the world. */
export interface ExportsWorld {
  /** Reads the visit. Rejects where it cannot be read. */
  readonly visit: () => Promise<Visit>;
  /** The same as it is handed over whole: signed, where it is finished and of this notebook. */
  readonly handOver: () => Promise<Signed>;
  /** What an office has marked as done of its follow-ups. */
  readonly done: () => DoneMarks;
  /** A file that can bring the visit back was handed over. Never rejects. */
  readonly handed: (visit: Visit) => Promise<void>;
  readonly now: () => string;
  readonly reason: (error: unknown) => string;
}

/** What happened, or went wrong, in one sentence. */
export interface Told {
  readonly kind: "done" | "problem";
  readonly sentence: string;
}

/** Hands over one visit in any of its kinds, each made when it is asked for. Nothing rejects: what fails is told. */
export class Exports {
  /** The kinds that there are of this visit; null until that is known. */
  readonly kinds = signal<readonly ExportKind[] | null>(null);
  readonly told = signal<Told | null>(null);
  /** Whether a file is being made. */
  readonly busy = signal(false);
  readonly #world: ExportsWorld;

  constructor(world: ExportsWorld) {
    this.#world = world;
  }

  /** Looks what there is to hand over: a calendar only where something is to be done. */
  async look(): Promise<void> {
    await this.#work(async () => {
      const visit = await this.#world.visit();
      const hasFollowUps = openFollowUpsOf([visit], this.#world.done()).length > 0;
      this.kinds.value = EXPORT_KINDS.filter((kind) => kind !== "follow-ups" || hasFollowUps);
    });
  }

  /** Whether the platform's share sheet takes such files. */
  canShare(kind: ExportKind): boolean {
    const { ending, type } = ABOUT[kind];
    return canShareFiles({ name: `visit.${ending}`, type });
  }

  /** Hands a file to the person as a download. */
  async save(kind: ExportKind): Promise<void> {
    await this.#work(async () => {
      const { file, notice, visit } = await this.#make(kind);
      download(file.name, file.data, file.type);
      if (kind === "bundle") await this.#world.handed(visit);
      this.#tell(`Saved: ${file.name}`, notice);
    });
  }

  /** Hands it to the platform's share sheet. */
  async share(kind: ExportKind): Promise<void> {
    await this.#work(async () => {
      const { file, notice, visit } = await this.#make(kind);
      switch (await shareFile(file)) {
        case "shared":
          if (kind === "bundle") await this.#world.handed(visit);
          this.#tell(`Handed over: ${file.name}`, notice);
          return;
        case "not-possible":
          throw new Error(
            "The file is ready, but the share sheet did not open: tap Share once more, or save it",
          );
        case "dismissed":
      }
    });
  }

  #tell(done: string, notice: string | null): void {
    this.told.value = { kind: "done", sentence: notice === null ? done : `${done}. ${notice}` };
  }

  async #make(kind: ExportKind): Promise<{ file: SharedFile; notice: string | null; visit: Visit }> {
    const signed = kind === "bundle" ? await this.#world.handOver() : null;
    const visit = signed?.visit ?? (await this.#world.visit());
    const { word, ending, type } = ABOUT[kind];
    const name = fileNameOf(visit.head, word, ending);
    const whole = (data: SharedFile["data"]) => ({ file: { name, type, data }, notice: null, visit });
    switch (kind) {
      case "bundle":
        return { ...whole(exportVisit(visit)), notice: signed && logNotice(signed) };
      case "table":
        return whole(csvOf(READINGS, [visit]));
      case "columns":
        return whole(metadataOf(READINGS, fileNameOf(visit.head, ABOUT.table.word, ABOUT.table.ending)));
      case "follow-ups":
        return whole(calendarOf([visit], this.#world.now(), this.#world.done()));
      case "workbook": {
        const workbook = workbookOf([visit], this.#world.done());
        if (!workbook.ok) throw new Error(workbook.problem);
        const data = await workbookBytes(workbook.sheets);
        return { file: { name, type, data }, notice: cutNotice(workbook.cut), visit };
      }
    }
  }

  /** One thing after the other: a tap while a file is made is passed over. */
  async #work(work: () => Promise<void>): Promise<void> {
    if (this.busy.value) return;
    this.busy.value = true;
    this.told.value = null;
    try {
      await work();
    } catch (error) {
      const reason = this.#world.reason(error);
      this.told.value = { kind: "problem", sentence: reason.replace(/\.?$/, ".") };
    } finally {
      this.busy.value = false;
    }
  }
}
