import type { Command, Item } from "../meaning/item.ts";
import { quantityOf, readsWhole, refusal } from "../measure/quantity.ts";
import { type Draft, type Said, unsureBody } from "./draft.ts";
import type { EntryBody, Reading } from "./entry.ts";
import { openQuestion } from "./fold.ts";
import type { StandingReading, VisitState } from "./state.ts";

export const NOTHING_TO_STRIKE = "nothing to strike";
export const NOTHING_TO_REPLACE = "no reading to replace";
export const NO_FRACTION = "that reading has no decimals";
export const OUT_OF_BOUNDS = "outside what can be measured";

type Replacement = Extract<Item, { kind: "replace" }>;

/** "Scratch that" drops the question that is open, else strikes the last item that stands, or the last turn. */
export function strikeBody(
  { last }: Extract<Item, { kind: "strike" }>,
  state: VisitState,
  said: string,
): EntryBody {
  const question = openQuestion(state);
  if (question && last === undefined) return { kind: "answer", target: question.id, accepted: false };
  const struck = state.items.findLast(
    (item) => item.struckBy === null && (last === undefined || item.body.kind === last),
  );
  return struck ? { kind: "strike", target: struck.id } : unsureBody(said, NOTHING_TO_STRIKE, []);
}

/**
 * "No, nine point four" answers an open question about a reading, else mends the last reading that stands; "no, the CO was
 * one thirty" the last of that quantity, and where none stands it is a reading of its own. `log` enters a reading.
 */
export function replaceDrafts(
  item: Replacement,
  state: VisitState,
  from: Said,
  log: (reading: Extract<Item, { kind: "reading" }>) => Draft,
): Draft[] {
  const { quantity, value, unit } = item;
  const question = openQuestion(state);
  const asked = question?.unsure.candidates[0];
  if (question && asked?.kind === "reading" && (quantity === undefined || quantity === asked.quantity)) {
    const mended = { ...asked, value, unit: unit ?? asked.unit, ...from };
    return [{ ...from, body: { kind: "answer", target: question.id, accepted: false } }, log(mended)];
  }
  if (quantity !== undefined) {
    const same = state.readings.findLast(({ reading }) => reading.quantity === quantity);
    if (same) return [{ ...from, body: replaceBody(item, same, from.said) }];
    return [
      log({ kind: "reading", quantity, value, unit, firing: null, condition: null, dial: null, ...from }),
    ];
  }
  const last = state.readings.at(-1);
  if (!last) return [{ ...from, body: unsureBody(from.said, NOTHING_TO_REPLACE, []) }];
  const meant = isFraction(value, last) ? state.readings.findLast((r) => !isFraction(value, r)) : last;
  if (!meant) return [{ ...from, body: unsureBody(from.said, NO_FRACTION, []) }];
  return [{ ...from, body: replaceBody(item, meant, from.said) }];
}

/** A number with decimals for a quantity that is read in whole numbers: it must be of the reading before that one. */
function isFraction(value: number, { reading }: StandingReading): boolean {
  return readsWhole(reading.quantity) && !Number.isInteger(value);
}

function replaceBody({ value, unit: saidUnit }: Replacement, last: StandingReading, said: string): EntryBody {
  const { reading } = last;
  const unit = saidUnit ?? reading.unit;
  if (refusal(reading.quantity, value, unit) !== null) {
    return unsureBody(said, OUT_OF_BOUNDS, mendedPoint(value, reading, saidUnit));
  }
  const origin = {
    ...reading.origin,
    value: "said" as const,
    unit: saidUnit ? ("said" as const) : reading.origin.unit,
  };
  return { kind: "replace", target: last.id, with: { ...reading, value, unit, origin } };
}

/** "Ninety four" for a CO2 of 9.4: the lost decimal point put back, for quantities that are shown with decimals. */
function mendedPoint(value: number, reading: Reading, saidUnit: Reading["unit"] | null): Item[] {
  if (quantityOf(reading.quantity).decimals === 0) return [];
  return [value / 10, value / 100]
    .filter((mended) => refusal(reading.quantity, mended, saidUnit ?? reading.unit) === null)
    .map((mended) => ({ kind: "replace", value: mended, unit: saidUnit }));
}

/**
 * "Yes" takes what was asked about, "no" drops it, or goes on to the next candidate. To a question that asks for something
 * missing "yes" is no answer. `take` enters an item into the state that it is handed.
 */
export function answerDrafts(
  command: Extract<Command, "yes" | "no">,
  state: VisitState,
  from: Said,
  take: (item: Item, state: VisitState, from: Said) => Draft[],
): Draft[] {
  const question = openQuestion(state);
  if (!question) return [];
  const { candidates, question: missing, text, reason } = question.unsure;
  const [candidate, ...others] = candidates;
  const accepted = command === "yes";
  if (accepted && (missing !== undefined || !candidate)) return [];
  const answer: Draft = { ...from, body: { kind: "answer", target: question.id, accepted } };
  if (accepted && candidate) {
    const answered = { ...state, questions: state.questions.filter(({ id }) => id !== question.id) };
    return [answer, ...take(candidate, answered, { ...from, said: text })];
  }
  if (missing !== undefined || others.length === 0) return [answer];
  return [answer, { ...from, said: text, body: unsureBody(text, reason, others) }];
}
