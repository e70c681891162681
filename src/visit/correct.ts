import type { Item, ReadingItem, Unsure } from "../meaning/item.ts";
import { quantityOf, readsWhole, refusal } from "../measure/quantity.ts";
import { mendedAnswer } from "./answers.ts";
import { type Draft, OUT_OF_BOUNDS, type Said, unsureBody } from "./draft.ts";
import type { EntryBody, Reading } from "./entry.ts";
import { isOfTurn, openQuestion, quantitiesOf } from "./questions.ts";
import type { ItemBody, StandingReading, VisitState } from "./state.ts";

export const NOTHING_TO_STRIKE = "nothing to strike";
export const NO_TURN_TO_STRIKE = "no turn to strike";
export const NO_ALARM_TO_STRIKE = "no alarm to strike";
export const NO_SUCH_READING = "no such reading to strike";
export const NOTHING_TO_REPLACE = "no reading to replace";
const NO_FRACTION = "that reading has no decimals";

type Replacement = Extract<Item, { kind: "replace" }>;
type Strike = Extract<Item, { kind: "strike" }>;

/**
 * "Scratch that" drops the question that is open, else strikes the last item that stands; "strike that turn" is of turns
 * alone, "strike that CO" of readings of CO, "scratch that CO alarm" of alarms that were logged as sounding.
 */
export function strikeBody(item: Strike, state: VisitState, said: string): EntryBody {
  const question = openQuestion(state);
  if (question && isOfQuestion(item, question.unsure)) {
    return { kind: "answer", target: question.id, accepted: false };
  }
  const struck = state.items.findLast(({ struckBy, body }) => struckBy === null && isMeant(item, body));
  if (struck) return { kind: "strike", target: struck.id };
  return unsureBody(said, nothingOf(item), []);
}

function isOfQuestion({ last, quantity }: Strike, asked: Unsure): boolean {
  if (quantity !== undefined) return quantitiesOf(asked).includes(quantity);
  return last === undefined || (last === "adjustment" && isOfTurn(asked));
}

function isMeant({ last, quantity }: Strike, body: ItemBody): boolean {
  if (quantity !== undefined) return body.kind === "reading" && body.quantity === quantity;
  if (last === "co-alarm") return body.kind === "mark" && body.mark === last;
  return last === undefined || body.kind === last;
}

function nothingOf({ last, quantity }: Strike): string {
  if (quantity !== undefined) return NO_SUCH_READING;
  if (last === "co-alarm") return NO_ALARM_TO_STRIKE;
  return last === undefined ? NOTHING_TO_STRIKE : NO_TURN_TO_STRIKE;
}

/**
 * "No, nine point four" answers an open question about a reading, else mends the last reading that stands; "no, the CO was
 * one thirty" the last of that quantity, and where none stands it is a reading of its own. `log` enters a reading.
 */
export function replaceDrafts(
  item: Replacement,
  state: VisitState,
  from: Said,
  log: (reading: ReadingItem) => Draft,
): Draft[] {
  const answer = mendedAnswer(item, state, from, log);
  if (answer) return answer;
  const { quantity, value, unit } = item;
  const last = mendTarget(item, state);
  if (last) return [{ ...from, body: replaceBody(item, last, from.said) }];
  if (quantity !== undefined)
    return [
      log({ ...from, kind: "reading", quantity, value, unit, firing: null, condition: null, dial: null }),
    ];
  const { said } = from;
  if (state.readings.length === 0) return [{ ...from, body: unsureBody(said, NOTHING_TO_REPLACE, []) }];
  return [{ ...from, body: unsureBody(said, NO_FRACTION, [], { asks: "quantity", value, unit }) }];
}

/** The standing reading that a replacement mends: the last one of its quantity, or that its number can be of. */
export function mendTarget(
  { quantity, value }: Replacement,
  { readings }: VisitState,
): StandingReading | null {
  const fits = (r: StandingReading) =>
    quantity === undefined ? !isFraction(value, r) : r.reading.quantity === quantity;
  return readings.findLast(fits) ?? null;
}

/**
 * "Make that nine?" "CO2 nine point three": the value said instead is a mend, too, and no new reading. Null where it is of
 * something else.
 */
export function mendInstead(
  { quantity, value, unit, firing }: ReadingItem,
  state: VisitState,
): Replacement | null {
  const asked = openQuestion(state)?.unsure.candidates[0];
  const old = asked?.kind === "replace" ? mendTarget(asked, state)?.reading : undefined;
  if (old?.quantity !== quantity || (firing !== null && firing !== old.firing)) return null;
  return { kind: "replace", quantity, value, unit };
}

/** A number with decimals for a quantity that is read in whole numbers: it must be of the reading before that one. */
function isFraction(value: number, { reading }: StandingReading): boolean {
  return readsWhole(reading.quantity) && !Number.isInteger(value);
}

function replaceBody({ value, unit: saidUnit }: Replacement, last: StandingReading, said: string): EntryBody {
  const { reading } = last;
  const unit = saidUnit ?? reading.unit;
  if (isFraction(value, last)) return unsureBody(said, NO_FRACTION, []);
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
    .slice(0, 1)
    .map((mended) => ({
      kind: "replace",
      value: Number(mended.toPrecision(6)),
      unit: saidUnit,
      quantity: reading.quantity,
    }));
}
