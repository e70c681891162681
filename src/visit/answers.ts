import type { Command, Item, Meaning, ReadingItem, Unsure } from "../meaning/item.ts";
import { onlyUnit, quantityOf, readsWhole, refusal } from "../measure/quantity.ts";
import { type Draft, OUT_OF_BOUNDS, type Said, unsureBody } from "./draft.ts";
import { isOfTurn, openQuestion, screwAsked } from "./questions.ts";
import type { OpenQuestion, VisitState } from "./state.ts";

type Replacement = Extract<Item, { kind: "replace" }>;

/** Further than this nobody turns a screw at once: a larger number mends no turn. */
export const MOST_TURNS = 5;

/**
 * "Yes" takes what was asked about, "no" drops it, or goes on to the next candidate. To a question that asks for something
 * missing "yes" is no answer, but to "of what?" where it can be only one. `take` enters an item into the state that it is handed.
 */
export function yesOrNo(
  command: Extract<Command, "yes" | "no">,
  state: VisitState,
  from: Said,
  take: (item: Item, state: VisitState, from: Said) => Draft[],
): Draft[] {
  const question = openQuestion(state);
  if (!question) return [];
  const { candidates, question: missing, text, reason } = question.unsure;
  const [candidate, ...others] = candidates;
  if (command === "yes") {
    if (!candidate || (missing !== undefined && !isOnly(question.unsure))) return [];
    const answered = { ...state, questions: state.questions.filter(({ id }) => id !== question.id) };
    return [answerTo(question, true, from), ...take(candidate, answered, { ...from, said: text })];
  }
  const dropped = answerTo(question, false, from);
  if (missing !== undefined || others.length === 0) return [dropped];
  return [dropped, { ...from, said: text, body: unsureBody(text, reason, others) }];
}

/** "5400": of what was asked, and it can be only one quantity. */
export function isOnly({ candidates, question }: Unsure): boolean {
  return question?.asks === "quantity" && candidates.length === 1;
}

/**
 * "Yes, nine point two", "yes, CO2 nine point two": what is said again with the yes or no is the answer, logged once. Where
 * it is not what was asked about, it counts and the "yes" does not.
 */
export function withItsNumber(meaning: Meaning, state: VisitState): Meaning {
  const { items, unsure } = meaning;
  const asked = openQuestion(state)?.unsure;
  const word = items.find(isYesOrNo);
  if (!asked || !word) return meaning;
  if (items.some((item) => asked.candidates.some((candidate) => saysAgain(item, candidate)))) {
    return { ...meaning, items: items.filter((item) => item !== word) };
  }
  const number = unsure.find(({ question }) => question?.asks === "quantity");
  const [first] = asked.candidates;
  if (number?.question?.asks !== "quantity") return meaning;
  if (first?.kind !== "replace" && readingsAsked(asked).length === 0) return meaning;
  const { value, unit } = number.question;
  const isIt =
    (first?.kind === "reading" || first?.kind === "replace") &&
    first.value === value &&
    (unit === null || unit === first.unit);
  const answer: Item = isIt && word.command === "yes" ? word : { kind: "replace", value, unit };
  return {
    ...meaning,
    items: items.map((item) => (item === word ? answer : item)),
    unsure: unsure.filter((piece) => piece !== number),
  };
}

function saysAgain(item: Item, candidate: Item): boolean {
  if (item.kind === "adjustment") return candidate.kind === "adjustment";
  if (item.kind !== "reading") return false;
  if (candidate.kind === "replace") return (candidate.quantity ?? item.quantity) === item.quantity;
  if (candidate.kind !== "reading" || candidate.quantity !== item.quantity) return false;
  return item.firing === null || candidate.firing === null || item.firing === candidate.firing;
}

/** "An eighth", when "low screw a quarter" has been asked about: a turn goes on being of the screw that was said. */
export function ofSameScrew(unsure: Unsure, state: VisitState): Unsure {
  const asked = openQuestion(state)?.unsure;
  const adjuster = asked ? screwAsked(asked) : null;
  if (adjuster === null || unsure.question?.asks !== "way" || unsure.question.adjuster !== null)
    return unsure;
  const candidates = unsure.candidates.map((item) =>
    item.kind === "adjustment" ? { ...item, adjuster } : item,
  );
  return { ...unsure, candidates, question: { ...unsure.question, adjuster } };
}

/**
 * "No, nine point four", while a question is open: of what was asked about. Null where the question is about something
 * else. `log` enters a reading.
 */
export function mendedAnswer(
  item: Replacement,
  state: VisitState,
  from: Said,
  log: (reading: ReadingItem) => Draft,
): Draft[] | null {
  const question = openQuestion(state);
  if (!question) return null;
  const asked = question.unsure;
  const meant = item.quantity === undefined && isOfTurn(asked) ? mendedTurn(item, asked, from) : null;
  const draft = meant ?? mendedReading(item, asked, from, log);
  // Where something was missing there was nothing to say no to.
  if (!draft || asked.question) return draft && [draft];
  return [answerTo(question, false, from), draft];
}

/** "No" to a question, or "yes". */
function answerTo({ id }: OpenQuestion, accepted: boolean, from: Said): Draft {
  return { ...from, body: { kind: "answer", target: id, accepted } };
}

function isYesOrNo(item: Item): item is Extract<Item, { kind: "command" }> {
  return item.kind === "command" && (item.command === "yes" || item.command === "no");
}

/** A reading that is in question, whatever its value. */
type Asked = Pick<ReadingItem, "quantity" | "unit" | "firing" | "condition" | "dial">;

/** What an answer that is only a number may be of, likeliest first. */
function readingsAsked({ candidates, question }: Unsure): Asked[] {
  const meant = candidates.filter((item) => item.kind === "reading");
  if (question?.asks !== "value") return meant;
  const { quantity, firing, condition, others = [], dial = null } = question;
  const missing = [quantity, ...others].map((id) => ({
    quantity: id,
    unit: onlyUnit(id),
    firing: quantityOf(id).perFiring ? firing : null,
    condition,
    dial: id === quantity ? dial : null,
  }));
  return [...missing, ...meant];
}

/** Of the readings in question the first that the number can be; where it can be none, asked again. */
function mendedReading(
  { quantity, value, unit }: Replacement,
  asked: Unsure,
  from: Said,
  log: (reading: ReadingItem) => Draft,
): Draft | null {
  const { question } = asked;
  const mended = (old: Asked): ReadingItem => ({
    ...old,
    ...from,
    kind: "reading",
    value,
    unit: unit ?? old.unit,
  });
  if (question?.asks === "quantity") {
    if (quantity === undefined) {
      const again = { asks: "quantity", value, unit: unit ?? question.unit } as const;
      return { ...from, body: unsureBody(from.said, asked.reason, [], again) };
    }
    // Another number with a name is of an older reading.
    if (value !== question.value) return null;
    return log(mended({ quantity, unit: question.unit, firing: null, condition: null, dial: null }));
  }
  const ways = readingsAsked(asked).filter((old) => quantity === undefined || old.quantity === quantity);
  const meant = ways.map(mended).find(isPossible);
  if (meant) return log(meant);
  const [first] = ways;
  return first ? { ...from, body: unsureBody(from.said, OUT_OF_BOUNDS, [], howMuch(first)) } : null;
}

/** The question for a reading's value. */
export function howMuch({ quantity, firing, condition, dial }: Asked): Unsure["question"] {
  return { asks: "value", quantity, firing, condition, ...(dial && { dial }) };
}

/** A meter's time as the answer to the question for it is for the volume that was said before. */
export function withItsDial(item: ReadingItem, state: VisitState): ReadingItem {
  const asked = openQuestion(state)?.unsure;
  const known = asked && readingsAsked(asked).find(({ quantity }) => quantity === item.quantity)?.dial;
  return item.dial === null && known ? { ...item, dial: known } : item;
}

function isPossible({ quantity, value, unit }: ReadingItem): boolean {
  return refusal(quantity, value, unit) === null && (Number.isInteger(value) || !readsWhole(quantity));
}

/** "No, three quarters" of a turn in question: the same question about the other distance, the old one where it can be none. */
function mendedTurn({ value, unit }: Replacement, asked: Unsure, from: Said): Draft | null {
  if (unit !== null) return null;
  const { text, reason, question, candidates } = asked;
  if (!(value > 0 && value <= MOST_TURNS)) {
    return { ...from, body: unsureBody(text, reason, candidates, question) };
  }
  const longer = candidates
    .filter((item) => item.kind === "adjustment")
    .map((item) => ({ ...item, turns: Math.sign(item.turns) * value }));
  switch (question?.asks) {
    case "way":
      return { ...from, body: unsureBody(from.said, reason, longer, { ...question, turns: value }) };
    case "screw": {
      const turns = Math.sign(question.turns) * value;
      return { ...from, body: unsureBody(from.said, reason, longer, { ...question, turns }) };
    }
    default:
      return { ...from, body: unsureBody(from.said, reason, longer.slice(0, 1)) };
  }
}
