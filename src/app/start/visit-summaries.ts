import { signal } from "@preact/signals";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { VisitSummary } from "./visit-summary.ts";

/** The summaries of visits, made when a list shows them, one after the other: the page answers in between. */
export class VisitSummaries {
  /** By the visit's id; null where it cannot be read any more. */
  readonly known = signal<ReadonlyMap<string, VisitSummary | null>>(new Map());
  readonly #notebook: Pick<Notebook, "visit">;
  readonly #now: () => string;
  /** Counts what was asked for, so that only the last list is read on for. */
  #asked = 0;

  constructor(notebook: Pick<Notebook, "visit">, now: () => string) {
    this.#notebook = notebook;
    this.#now = now;
  }

  /** Reads the summaries that are not known yet, in this order. Never rejects. */
  async want(ids: readonly string[]): Promise<void> {
    this.#asked += 1;
    const asked = this.#asked;
    for (const id of ids) {
      if (asked !== this.#asked) return;
      if (this.known.value.has(id)) continue;
      const summary = await this.#read(id);
      this.known.value = new Map([...this.known.value, [id, summary]]);
    }
  }

  /** The numbers of all appliances that are known so far, each once. */
  appliances(): string[] {
    const numbers = [...this.known.value.values()].flatMap((summary) => summary?.appliance || []);
    return [...new Set(numbers)].sort((a, b) => a.localeCompare(b, "en"));
  }

  /** Forgets what was known: visits may have gone on since. */
  forget(): void {
    this.known.value = new Map();
  }

  async #read(id: string): Promise<VisitSummary | null> {
    try {
      const { summaryOf } = await import("./visit-summary.ts");
      return summaryOf(await this.#notebook.visit(id), this.#now());
    } catch {
      // Damaged, and named as that in the notice of the list, or deleted by another window.
      return null;
    }
  }
}
