import { signal } from "@preact/signals";
import { download } from "../../device/files.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Records } from "../record/records.ts";
import type { VisitShelf } from "../start/visit-shelf.ts";
import { fileNameOf } from "../start/visit-title.ts";
import type { Notices } from "./notices.ts";

/** What can be handed over, and where it is told. */
export interface HandingOverWorld {
  readonly visits: VisitShelf;
  /** The record that is open. */
  readonly records: () => Records;
  readonly notices: Notices;
}

/** Visits and records leave the app as files: only ever because a person asked for it. Nothing here rejects. */
export class HandingOver {
  /** Id of the visit that is being handed over: what it can be is shown beside it. */
  readonly exporting = signal<string | null>(null);
  readonly #world: HandingOverWorld;

  constructor(world: HandingOverWorld) {
    this.#world = world;
  }

  /** Hands over a visit as a JSON file. */
  async exportVisit(id: string): Promise<void> {
    const { visits, notices } = this.#world;
    await notices.guard(async () => {
      const { name, notice } = await visits.export(id);
      notices.done(`Exported: ${name}${notice === null ? "" : `. ${notice}`}`);
    });
  }

  /** Hands over a visit as it is in memory, for when the disk has lost it: without a look at the disk or the network. */
  async saveOpen(visit: Visit): Promise<void> {
    const { notices } = this.#world;
    await notices.guard(async () => {
      const name = fileNameOf(visit.head);
      download(name, `${JSON.stringify(visit, null, 2)}\n`);
      notices.done(`Saved: ${name}`);
    });
  }

  /** Hands over the record that is open as a PDF file. */
  async saveRecord(): Promise<void> {
    const { records, notices } = this.#world;
    await notices.guard(async () => {
      notices.clear();
      const name = await records().save();
      if (name !== null) notices.done(`Saved: ${name}`);
    });
  }

  /** Hands it to the platform's share sheet. */
  async shareRecord(): Promise<void> {
    const { records, notices } = this.#world;
    await notices.guard(async () => {
      notices.clear();
      if ((await records().share()) !== "not-possible") return;
      notices.problem([
        "The file is ready, but the share sheet did not open: tap Share once more, or save it.",
      ]);
    });
  }
}
