import { signal } from "@preact/signals";
import type { VisitState } from "../../visit/state.ts";
import { leftOf, type Moment, NO_WAIT, setBy, waitIn } from "./ready.ts";

/** The settle time of a visit, by a clock that nobody sets. */
export class Waiting {
  /** The settle time that runs. */
  readonly wait = signal(NO_WAIT);
  /** By how much the device's clock was set while it ran, ms, forward positive; null where it was not, or is told no more. */
  readonly clockSet = signal<number | null>(null);
  readonly #moment: () => Moment;
  /** The wait in which it was last told that the clock was set. */
  #told: string | null = null;

  constructor(moment: () => Moment) {
    this.#moment = moment;
  }

  /** The visit stands anew. */
  stands(state: VisitState): void {
    this.wait.value = waitIn(this.wait.value, state, this.#moment());
  }

  /** Milliseconds for which it still runs; 0 or less where none does. */
  left(): number {
    return leftOf(this.wait.value, this.#moment().elapsed);
  }

  /** Whether the clock was set while it runs, and that is news: times of the log before and after do not agree. */
  wasSet(): boolean {
    const { until } = this.wait.value;
    const by = setBy(this.wait.value, this.#moment());
    if (by === 0 || this.#told === until) return false;
    this.#told = until;
    this.clockSet.value = by;
    return true;
  }

  /** It was told that it is over. */
  isTold(): void {
    const { until: told } = this.wait.value;
    this.wait.value = { ...this.wait.value, until: null, told };
  }
}
