import type { Entry } from "../visit/entry.ts";
import { after, startState } from "../visit/fold.ts";
import type { VisitState } from "../visit/state.ts";
import { utterancesOf } from "../visit/utterances.ts";
import type { Visit } from "../visit/visit.ts";
import type { Warning } from "./judgement.ts";
import { situationOf } from "./situation.ts";
import { dangersOf } from "./warnings/list.ts";

/** A warning that was given in a visit. */
export interface Raised extends Warning {
  /** ISO 8601. */
  readonly at: string;
  /** When the person took note of it, null where he did not yet. */
  readonly acknowledgedAt: string | null;
}

/** The warnings of a visit so far. */
export interface Warned {
  readonly raised: readonly Raised[];
  /** The warnings of the last utterance: what only stands on is not raised again. */
  readonly last: readonly Warning[];
}

/** Before the first utterance. */
export const NO_WARNINGS: Warned = { raised: [], last: [] };

/** The warnings after one more utterance: `since` are its entries, already in `state`; `now` is ISO 8601. */
export function warned(before: Warned, state: VisitState, since: readonly Entry[], now: string): Warned {
  // Nobody takes note of what he has not heard yet: only of the warnings before this utterance.
  const taken = since.some(({ body }) => body.kind === "mark" && body.mark === "acknowledged");
  const misheard = acknowledgementsStruck(state, since);
  const old = before.raised.map((each) => {
    const acknowledgedAt =
      each.acknowledgedAt !== null && misheard.includes(each.acknowledgedAt) ? null : each.acknowledgedAt;
    return { ...each, acknowledgedAt: taken ? (acknowledgedAt ?? now) : acknowledgedAt };
  });
  const open = old.filter(({ acknowledgedAt }) => acknowledgedAt === null);
  const dangers = dangersOf(situationOf(state, since, now));
  const fresh = dangers
    .filter((danger) => !has(open, danger) && !(danger.stop && has(before.last, danger)))
    .map(({ code, text }): Raised => ({ code, text, at: now, acknowledgedAt: null }));
  return {
    raised: [...old, ...fresh],
    last: dangers.map(({ code, text }) => ({ code, text })),
  };
}

/** When what these entries strike was acknowledged, ISO 8601: it was not. */
function acknowledgementsStruck(state: VisitState, since: readonly Entry[]): readonly string[] {
  const struck = since.flatMap(({ body }) => (body.kind === "strike" ? [body.target] : []));
  return state.items
    .filter(({ id, body }) => struck.includes(id) && body.kind === "mark" && body.mark === "acknowledged")
    .map(({ at }) => at);
}

function has(warnings: readonly Warning[], { code, text }: Warning): boolean {
  return warnings.some((old) => old.code === code && old.text === text);
}

/** The warnings after each utterance of a visit, one after the other: a pure replay. */
export function* warnedAlong(visit: Visit): Generator<Warned, undefined> {
  let state = startState(visit.head);
  let so = NO_WARNINGS;
  for (const since of utterancesOf(visit.entries)) {
    state = after(state, since);
    so = warned(so, state, since, since[0].at);
    yield so;
  }
}

/** Every warning that was given in a visit, in order. */
export function warnedIn(visit: Visit): Warned {
  let last = NO_WARNINGS;
  for (const so of warnedAlong(visit)) last = so;
  return last;
}

/**
 * What a warning is about: its code, and the firing that it names. Its numbers may have changed since ("wait fifty seconds"),
 * but a warning of the other firing is another one.
 */
export function topicOf({ code, text }: Warning): string {
  const [, firing = ""] = /\b(high|low) fire\b/i.exec(text) ?? [];
  return `${code} ${firing.toLowerCase()}`;
}

/** A warning that has to be shown, and since when, ISO 8601. */
export interface Shown extends Warning {
  readonly at: string;
}

/**
 * What has to be shown at `now` (ISO 8601): what stops the work or keeps the burner from running, acknowledged or not, then
 * what was not acknowledged.
 */
export function openWarnings({ raised }: Warned, state: VisitState, now: string): readonly Shown[] {
  const standing = dangersOf(situationOf(state, [], now))
    .filter(({ stop, stands }) => stop || stands)
    .map(({ code, text }) => ({
      code,
      text,
      at: raised.findLast((old) => old.code === code && old.text === text)?.at ?? now,
    }));
  const topics = new Set(standing.map(topicOf));
  const others = raised
    .filter((each) => each.acknowledgedAt === null && !topics.has(topicOf(each)))
    .map(({ code, text, at }) => ({ code, text, at }));
  return [...standing, ...others];
}
