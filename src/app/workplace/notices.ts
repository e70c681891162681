import { signal } from "@preact/signals";
import { reasonOf } from "../../device/notebook/trouble.ts";
import { capital } from "../../measure/capital.ts";

/** One or more sentences to show: what happened, or what went wrong. */
export interface Notice {
  readonly kind: "done" | "problem";
  readonly sentences: readonly string[];
}

/** The one notice that is shown; the last told stands. */
export class Notices {
  readonly shown = signal<Notice | null>(null);

  done(sentence: string): void {
    this.shown.value = { kind: "done", sentences: [sentence] };
  }

  problem(sentences: readonly string[]): void {
    this.shown.value = { kind: "problem", sentences };
  }

  clear(): void {
    this.shown.value = null;
  }

  /** Another screen opens: what was done on the last is no news there, what went wrong stays. */
  turnPage(): void {
    if (this.shown.value?.kind === "done") this.clear();
  }

  /** Whether the work was done; what failed becomes a notice. */
  async guard(work: () => Promise<void>): Promise<boolean> {
    try {
      await work();
      return true;
    } catch (error) {
      this.problem([`${capital(reasonOf(error))}.`]);
      return false;
    }
  }
}
