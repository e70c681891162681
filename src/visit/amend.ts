import type { Item, Mend, Unsure } from "../meaning/item.ts";
import { quantityOf, refusal } from "../measure/quantity.ts";
import { type Draft, OUT_OF_BOUNDS, type Said, unsureBody } from "./draft.ts";
import type { EntryBody, Reading } from "./entry.ts";
import { isOfTurn, openQuestion } from "./questions.ts";
import type { VisitState } from "./state.ts";

export const NOTHING_TO_MEND = "nothing to mend";

type Turn = Extract<Item, { kind: "adjustment" }>;

/**
 * A correction without a number ("no, celsius"; "no, that was low fire"; "no, out"). While a question is open it is of what
 * was asked about, which is then logged as mended; else of the last turn or reading that can have it, of a firing of all
 * readings of the last utterance, and of a unit of all of them whose unit was assumed. `take` enters an item.
 */
export function amendDrafts(
  item: Mend,
  state: VisitState,
  from: Said,
  take: (item: Item) => Draft[],
): Draft[] {
  const question = openQuestion(state);
  const asked = question?.unsure;
  if (asked && isMendOfTurn(item) && isOfTurn(asked) && isWayMissing(item, asked)) {
    return [{ ...from, body: askedAgain(asked, item) }];
  }
  const answer = asked ? amendedAnswer(item, asked) : null;
  // Where something was missing there was nothing to say no to.
  if (answer && question && !asked?.question)
    return [{ ...from, body: { kind: "answer", target: question.id, accepted: false } }, ...take(answer)];
  if (answer) return take(answer);
  const mended = isMendOfTurn(item) ? amendedTurn(item, state, from) : amendedReadings(item, state, from);
  if (mended.length > 0) return mended;
  // Said of no reading it is where the burner is.
  if (item.firing) return take({ kind: "firing", firing: item.firing });
  return [{ ...from, body: unsureBody(from.said, NOTHING_TO_MEND, []) }];
}

export function isMendOfTurn({ way, adjuster }: Mend): boolean {
  return way !== undefined || adjuster !== undefined;
}

/** Whether it was asked which way a screw was turned, and this does not say: "the other way" is of no way yet. */
function isWayMissing({ way }: Mend, { question }: Unsure): boolean {
  return question?.asks === "way" && (way === undefined || way === "opposite");
}

/** The same question, of the screw that was said. */
function askedAgain({ text, reason, candidates, question }: Unsure, { adjuster }: Mend): EntryBody {
  if (question?.asks !== "way" || !adjuster) return unsureBody(text, reason, candidates, question);
  const named = candidates.map((item) => (item.kind === "adjustment" ? { ...item, adjuster } : item));
  return unsureBody(text, reason, named, { ...question, adjuster });
}

/** What was asked about, mended; null where it cannot be of that. */
function amendedAnswer(item: Mend, asked: Unsure): Item | null {
  if (isMendOfTurn(item)) {
    const turn = isOfTurn(asked) ? turnAsked(asked) : null;
    return turn && { ...turn, turns: turnsAs(turn.turns, item), adjuster: item.adjuster ?? turn.adjuster };
  }
  const [candidate] = asked.candidates;
  return candidate?.kind === "reading" && canHave(item, candidate)
    ? { ...candidate, ...fieldsOf(item) }
    : null;
}

function turnAsked({ candidates, question }: Unsure): Turn | null {
  if (question?.asks === "way" || question?.asks === "screw") {
    const adjuster = question.asks === "way" ? question.adjuster : null;
    return { kind: "adjustment", adjuster, turns: question.turns };
  }
  return candidates.find((candidate) => candidate.kind === "adjustment") ?? null;
}

/** Signed turns, clockwise positive, as they were the way that was said. */
export function turnsAs(turns: number, { way }: Mend): number {
  switch (way) {
    case undefined:
      return turns;
    case "opposite":
      return -turns;
    case "clockwise":
      return Math.abs(turns);
    case "counterclockwise":
      return -Math.abs(turns);
  }
}

/** The last turn that stands, turned the way or with the screw that was said. */
function amendedTurn(item: Mend, state: VisitState, from: Said): Draft[] {
  const last = state.adjustments.at(-1);
  const old = state.items.find(({ id }) => id === last?.id)?.body;
  if (!last || old?.kind !== "adjustment") return [];
  const turns = turnsAs(old.turns, item);
  const mended = item.adjuster
    ? ({ ...old, turns, adjuster: item.adjuster, origin: { adjuster: "said" } } as const)
    : { ...old, turns };
  return [{ ...from, body: { kind: "replace", target: last.id, with: mended } }];
}

function amendedReadings(item: Mend, state: VisitState, from: Said): Draft[] {
  const fitting = state.readings.filter(({ reading }) => canHave(item, reading));
  const last = fitting.at(-1);
  const together = fitting.filter(({ at }) => at === last?.at);
  const assumed = item.unit ? together.filter(({ reading }) => reading.origin.unit === "assumed") : [];
  const isAssumed = last !== undefined && assumed.includes(last);
  const targets = item.firing ? together : isAssumed ? assumed : last ? [last] : [];
  return targets.map((target) => {
    const reading = readingAs(target.reading, item, state);
    const { quantity, value, unit } = reading;
    const body =
      refusal(quantity, value, unit) === null
        ? ({ kind: "replace", target: target.id, with: reading } as const)
        : unsureBody(from.said, OUT_OF_BOUNDS, []);
    return { ...from, body };
  });
}

/** Whether a reading can have the unit, condition or firing that was said. */
export function canHave({ unit, condition, firing }: Mend, { quantity }: Pick<Reading, "quantity">): boolean {
  const { id, units, perFiring } = quantityOf(quantity);
  if (unit !== undefined && !(units.length > 1 && units.includes(unit))) return false;
  if (condition !== undefined && id !== "gas-pressure-inlet") return false;
  return firing === undefined || perFiring;
}

/** What was said of a reading. */
function fieldsOf({ unit, condition, firing }: Mend) {
  return { ...(unit && { unit }), ...(condition && { condition }), ...(firing && { firing }) };
}

/** A reading with what was said instead; a firing that was assumed goes with "static" and comes with "dynamic". */
export function readingAs(old: Reading, item: Mend, state: VisitState): Reading {
  const origin = { ...old.origin };
  for (const field of ["unit", "condition", "firing"] as const) if (item[field]) origin[field] = "said";
  const mended = { ...old, ...fieldsOf(item), origin };
  if (!item.condition || (origin.firing === "said" && old.firing !== null)) return mended;
  const firing = item.condition === "static" ? null : (old.firing ?? state.firing?.firing ?? null);
  return { ...mended, firing, origin: { ...origin, firing: firing === null ? "said" : "assumed" } };
}
