import { signal } from "@preact/signals";
import { download } from "../../device/files.ts";
import type { Notebook } from "../../device/notebook.ts";
import { canShareFiles, type Shared, shareFile } from "../../device/share.ts";
import { NO_WARNINGS, warnedAlong } from "../../judge/raised.ts";
import type { Report } from "../../record/report/parts.ts";
import { reportOf } from "../../record/report/report.ts";
import type { VisitHead } from "../../visit/visit.ts";
import { fileNameOf } from "../start/visit-title.ts";

/** What making records needs of the world. */
export interface RecordsWorld {
  readonly notebook: Pick<Notebook, "visit">;
  readonly now: () => string;
  /** A pause between pieces of long work. */
  readonly breathe: () => Promise<void>;
  /** Keeps the files that a PDF is made with for the next time. Never rejects. */
  readonly fetchAhead: () => Promise<void>;
  /** Loads them. Rejects where they are not here and there is no network. */
  readonly printer: () => Promise<Printer>;
}

/** What makes a PDF file of a record. */
export type Printer = (report: Report) => Promise<Uint8Array>;

/** The record that is open. */
export interface OpenRecord {
  readonly head: VisitHead;
  readonly report: Report;
}

/** The record of a visit: shown, made a PDF file, handed over. What fails rejects. */
export class Records {
  /** Null while it is worked out. */
  readonly open = signal<OpenRecord | null>(null);
  /** Whether a file is being made. */
  readonly busy = signal(false);
  readonly #world: RecordsWorld;
  #pdf: { readonly report: Report; readonly data: Uint8Array } | null = null;

  constructor(world: RecordsWorld) {
    this.#world = world;
  }

  get canShare(): boolean {
    return canShareFiles();
  }

  /** Reads a visit and works out its record; of a long one in pieces, so that the page answers meanwhile. */
  async look(visitId: string): Promise<void> {
    this.close();
    const { notebook, now, breathe } = this.#world;
    const visit = await notebook.visit(visitId);
    let warned = NO_WARNINGS;
    for (const so of warnedAlong(visit)) {
      warned = so;
      await breathe();
    }
    this.open.value = { head: visit.head, report: reportOf(visit, now(), warned) };
  }

  close(): void {
    this.open.value = null;
    this.#pdf = null;
  }

  /** Hands the record to the person as a PDF file; its name, or null where none is open. */
  async save(): Promise<string | null> {
    const made = await this.#make();
    if (!made) return null;
    download(made.name, made.data, PDF);
    return made.name;
  }

  /** Hands it to the platform's share sheet. */
  async share(): Promise<Shared> {
    const made = await this.#make();
    return made ? shareFile({ name: made.name, type: PDF, data: made.data }) : "dismissed";
  }

  async #make(): Promise<{ name: string; data: Uint8Array } | null> {
    const open = this.open.value;
    if (!open || this.busy.value) return null;
    this.busy.value = true;
    try {
      const { report, head } = open;
      if (this.#pdf?.report !== report) {
        await this.#world.fetchAhead();
        const print = await this.#world.printer();
        this.#pdf = { report, data: await print(report) };
      }
      return { name: fileNameOf(head, "record", "pdf"), data: this.#pdf.data };
    } finally {
      this.busy.value = false;
    }
  }
}

const PDF = "application/pdf";
