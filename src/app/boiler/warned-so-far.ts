import { signal } from "@preact/signals";
import { NO_WARNINGS, type Warned, warned, warnedAlong } from "../../judge/raised.ts";
import type { Visit } from "../../visit/visit.ts";

/** The warnings of a visit up to an utterance, and those after each that comes. */
export interface Along {
  readonly so: Warned;
  readonly rest: Iterator<Warned, undefined>;
}

/** The warnings of so many utterances are gone through before a visit is shown; the rest of a long one beside the work. */
const AT_ONCE = 60;

/** The warnings of the first utterances, in small pieces. */
export async function begunAlong(visit: Visit, breathe: () => Promise<void>): Promise<Along> {
  const rest = warnedAlong(visit);
  let so = NO_WARNINGS;
  for (let utterances = 0; utterances < AT_ONCE; utterances += 1) {
    await breathe();
    so = rest.next().value ?? so;
  }
  return { so, rest };
}

/** What was logged since a visit was opened. */
type Since = Parameters<typeof warned> extends [Warned, ...infer Rest] ? Rest : never;

/** The warnings of a visit: those from before it was opened are gone through beside the work. */
export class WarnedSoFar {
  /** The warnings so far, and whether they were acknowledged; until all are caught up with, those since the visit was opened. */
  readonly shown = signal(NO_WARNINGS);
  /** What was logged while the warnings before it were not gone through yet; null after that. */
  #since: Since[] | null = [];

  /** The warnings after one more utterance. */
  add(...since: Since): void {
    this.shown.value = warned(this.shown.value, ...since);
    this.#since?.push(since);
  }

  /** Goes through the rest, with a pause after each, unless a pause says that nobody wants it any more. Never rejects. */
  async catchUp({ so, rest }: Along, goesOn: () => Promise<boolean>): Promise<void> {
    let last = so;
    for (let next = rest.next(); !next.done; next = rest.next()) {
      last = next.value;
      if (!(await goesOn())) return;
    }
    this.shown.value = (this.#since ?? []).reduce((before, since) => warned(before, ...since), last);
    this.#since = null;
  }
}
