import { signal } from "@preact/signals";
import type { Notebook } from "../../device/notebook.ts";
import type { Shared, SharedFile } from "../../device/share.ts";
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
  /** Hands a file to the person as a download. */
  readonly save: (file: SharedFile) => void;
  readonly canShare: () => boolean;
  /** Hands it to the platform's share sheet. Never rejects. */
  readonly share: (file: SharedFile) => Promise<Shared>;
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
    return this.#world.canShare();
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
    this.#world.save(made);
    return made.name;
  }

  /** Hands it to the platform's share sheet. */
  async share(): Promise<Shared> {
    const made = await this.#make();
    return made ? this.#world.share(made) : "dismissed";
  }

  async #make(): Promise<SharedFile | null> {
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
      return { name: fileNameOf(head, "record", "pdf"), type: "application/pdf", data: this.#pdf.data };
    } finally {
      this.busy.value = false;
    }
  }
}
