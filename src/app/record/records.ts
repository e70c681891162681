import { signal } from "@preact/signals";
import type { Shared, SharedFile } from "../../device/share.ts";
import { NO_WARNINGS, warnedAlong } from "../../judge/raised.ts";
import type { Report } from "../../record/report/parts.ts";
import { reportOf } from "../../record/report/report.ts";
import type { Visit, VisitHead } from "../../visit/visit.ts";
import type { Signed, Signing } from "../safekeeping/signing.ts";
import { fileNameOf } from "../start/visit-title.ts";

/** What making records needs of the world. */
export interface RecordsWorld {
  readonly signing: Pick<Signing, "handOver" | "examine">;
  readonly now: () => string;
  /** A pause between pieces of long work. */
  readonly breathe: () => Promise<void>;
  /** Fetches and keeps the files that a PDF is made with. Rejects where they are not here and the network did not give them. */
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
  #ready: Promise<void> = Promise.resolve();
  /** Counts what was opened and closed, so that a slow record knows that nobody waits for it any more. */
  #looks = 0;
  #pdf: { readonly report: Report; readonly data: Uint8Array } | null = null;

  constructor(world: RecordsWorld) {
    this.#world = world;
  }

  get canShare(): boolean {
    return this.#world.canShare();
  }

  /** Reads a visit, signing it where it is finished; its record is worked out beside the work, and `ready` resolves when it is open, or closed meanwhile. */
  async look(visitId: string): Promise<void> {
    this.close();
    const look = this.#looks;
    const signed = await this.#world.signing.handOver(visitId);
    if (look === this.#looks) this.#ready = this.#workOut(signed.visit, async () => signed);
  }

  /** The same for a visit that is no one of the notebook. */
  show(visit: Visit): void {
    this.close();
    this.#ready = this.#workOut(visit, () => this.#world.signing.examine(visit));
  }

  get ready(): Promise<void> {
    return this.#ready;
  }

  close(): void {
    this.#looks += 1;
    this.open.value = null;
    this.#pdf = null;
  }

  /** Of a long visit in pieces, so that the page answers meanwhile. */
  async #workOut(visit: Visit, examine: () => Promise<Signed>): Promise<void> {
    const look = this.#looks;
    let warned = NO_WARNINGS;
    for (const so of warnedAlong(visit)) {
      warned = so;
      await this.#world.breathe();
      if (look !== this.#looks) return;
    }
    const examined = await examine();
    if (look !== this.#looks) return;
    this.open.value = { head: visit.head, report: reportOf(visit, this.#world.now(), examined, warned) };
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
