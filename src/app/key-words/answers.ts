import type { KeyWordHeard } from "../../device/spotter/detect.ts";
import type { Session } from "../boiler/session.ts";
import { type ArbiterEvent, arbitrate, IDLE } from "./arbiter.ts";
import { questionOf } from "./asked.ts";
import { isSteering } from "./wanted.ts";

/** The words that wait for what the phrase recogniser makes of the same stretch, and the question that they were heard under. */
export class Answers {
  readonly #session: () => Session | null;
  readonly #count: (counts: readonly KeyWordHeard[]) => void;
  #arbiter = IDLE;
  /** The question that was open when the first of the words that wait was heard. */
  #askedThen: string | null = null;

  /** @param count told the words that count now, one at least */
  constructor(session: () => Session | null, count: (counts: readonly KeyWordHeard[]) => void) {
    this.#session = session;
    this.#count = count;
  }

  get isWaiting(): boolean {
    return this.#arbiter.pending.length > 0;
  }

  /** Nothing waits any more. */
  forget(): void {
    this.#arbiter = IDLE;
  }

  /** A phrase was taken, whatever waited: it is part of it. `at`: ms of the windows' clock. */
  taken(at: number): void {
    this.#arbiter = { ...this.#arbiter, pending: [], takenAt: at };
  }

  /** One event on; whether the phrase of this event is taken. */
  judge(event: ArbiterEvent): boolean {
    if (event.kind === "word" && !this.isWaiting) this.#askedThen = questionOf(this.#session());
    const { arbiter, counts, takes } = arbitrate(this.#arbiter, event);
    this.#arbiter = arbiter;
    // Meanwhile the question may have been answered otherwise, and another be open.
    const now = counts.filter(
      ({ word }) => isSteering(word) || questionOf(this.#session()) === this.#askedThen,
    );
    if (now.length > 0) this.#count(now);
    return takes;
  }
}
