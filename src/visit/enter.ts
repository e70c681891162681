import type { Phrase } from "../meaning/heard.ts";
import type { Command, Item, Meaning, ReadingItem, Unsure } from "../meaning/item.ts";
import { quantityOf, readsWhole, refusal } from "../measure/quantity.ts";
import { completeReading } from "./assume.ts";
import type { Entry, EntryBody, Mark, Reading } from "./entry.ts";
import { openQuestion, step } from "./fold.ts";
import type { StandingReading, VisitState } from "./state.ts";

export const NOTHING_TO_STRIKE = "nothing to strike";
export const NOTHING_TO_REPLACE = "no reading to replace";
export const WHICH_SCREW = "which screw was not said";
export const NO_FRACTION = "that reading has no decimals";
export const OUT_OF_BOUNDS = "outside what can be measured";

const MARKS: Readonly<Partial<Record<Command, Mark>>> = {
  "mark-as-found": "as-found",
  "mark-as-left": "as-left",
  "start-timer": "timer-start",
  "finish-visit": "finished",
};

/** One body to be logged, with the words and confidence it came from. */
interface Draft {
  readonly body: EntryBody;
  readonly said: string;
  readonly confidence: number;
}

/**
 * The entries that one phrase adds to the log, in spoken order, then what was not understood. `now` is ISO 8601;
 * `newId` gives a fresh id per entry. Nothing is lost silently: what cannot be logged becomes an unsure entry.
 */
export function entriesOf(
  meaning: Meaning,
  phrase: Phrase,
  state: VisitState,
  now: string,
  newId: () => string,
): Entry[] {
  const entries: Entry[] = [];
  let current = state;
  const log = (draft: Draft) => {
    const { body, said, confidence } = draft;
    const entry: Entry = {
      id: newId(),
      seq: current.nextSeq,
      at: now,
      engine: phrase.engine,
      phrase: phrase.text,
      said,
      confidence,
      body,
    };
    entries.push(entry);
    current = step(current, entry);
  };
  for (const item of meaning.items) {
    const context = { said: phrase.text, confidence: phrase.confidence };
    for (const draft of drafts(item, current, context)) log(draft);
  }
  for (const unsure of meaning.unsure) {
    log({ body: { kind: "unsure", unsure }, said: unsure.text, confidence: phrase.confidence });
  }
  return entries;
}

type Said = Omit<Draft, "body">;

function drafts(item: Item, state: VisitState, from: Said): Draft[] {
  switch (item.kind) {
    case "reading":
      return [readingDraft(item, state)];
    case "firing":
      return [{ ...from, body: { kind: "firing", firing: item.firing } }];
    case "adjustment":
      return [{ ...from, body: adjustmentBody(item, state, from.said) }];
    case "replace":
      return replaceDrafts(item, state, from);
    case "strike":
      return [{ ...from, body: strikeBody(state, from.said) }];
    case "note":
      return [{ ...from, body: { kind: "note", text: item.text } }];
    case "check":
      return [{ ...from, body: { kind: "check", item: item.item, done: item.done } }];
    case "command":
      return commandDrafts(item.command, state, from);
  }
}

function readingDraft(item: ReadingItem, state: VisitState): Draft {
  const { said, confidence } = item;
  const reading = completeReading(item, state);
  if (reading !== null) return { said, confidence, body: reading };
  const others = quantityOf(item.quantity).units.filter(
    (unit) => item.unit === null && refusal(item.quantity, item.value, unit) === null,
  );
  const candidates = others.map((unit): Item => ({ ...item, unit }));
  return { said, confidence, body: unsureBody(said, OUT_OF_BOUNDS, candidates) };
}

function adjustmentBody(
  item: Extract<Item, { kind: "adjustment" }>,
  state: VisitState,
  said: string,
): EntryBody {
  const { turns } = item;
  if (item.adjuster !== null) {
    return { kind: "adjustment", adjuster: item.adjuster, turns, origin: { adjuster: "said" } };
  }
  const adjuster = state.firing?.firing;
  if (adjuster) return { kind: "adjustment", adjuster, turns, origin: { adjuster: "assumed" } };
  return unsureBody(said, WHICH_SCREW, [
    { kind: "adjustment", adjuster: "high", turns },
    { kind: "adjustment", adjuster: "low", turns },
  ]);
}

/** "Scratch that" drops the question that is open, else strikes the last item that stands. */
function strikeBody(state: VisitState, said: string): EntryBody {
  const question = openQuestion(state);
  if (question) return { kind: "answer", target: question.id, accepted: false };
  const last = state.items.findLast((item) => item.struckBy === null);
  return last ? { kind: "strike", target: last.id } : unsureBody(said, NOTHING_TO_STRIKE, []);
}

/** "No, nine point four" answers an open question about a reading, else mends the last reading that stands. */
function replaceDrafts(item: Extract<Item, { kind: "replace" }>, state: VisitState, from: Said): Draft[] {
  const question = openQuestion(state);
  const asked = question?.unsure.candidates[0];
  if (question && asked?.kind === "reading") {
    const mended = { ...asked, value: item.value, unit: item.unit ?? asked.unit, ...from };
    return [
      { ...from, body: { kind: "answer", target: question.id, accepted: false } },
      readingDraft(mended, state),
    ];
  }
  const last = state.readings.at(-1);
  if (!last) return [{ ...from, body: unsureBody(from.said, NOTHING_TO_REPLACE, []) }];
  const meant = isFraction(item.value, last)
    ? state.readings.findLast((r) => !isFraction(item.value, r))
    : last;
  if (!meant) return [{ ...from, body: unsureBody(from.said, NO_FRACTION, []) }];
  return [{ ...from, body: replaceBody(item.value, item.unit, meant, from.said) }];
}

/** A number with decimals for a quantity that is read in whole numbers: it must be of the reading before that one. */
function isFraction(value: number, { reading }: StandingReading): boolean {
  return readsWhole(reading.quantity) && !Number.isInteger(value);
}

function replaceBody(
  value: number,
  saidUnit: Reading["unit"] | null,
  last: StandingReading,
  said: string,
): EntryBody {
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

function commandDrafts(command: Command, state: VisitState, from: Said): Draft[] {
  const mark = MARKS[command];
  if (mark) return [{ ...from, body: { kind: "mark", mark } }];
  const question = openQuestion(state);
  if (!question || (command !== "yes" && command !== "no")) return [];
  const accepted = command === "yes";
  const answer: Draft = { ...from, body: { kind: "answer", target: question.id, accepted } };
  const candidate = question.unsure.candidates[0];
  if (!accepted || !candidate) return [answer];
  const answered = { ...state, questions: state.questions.filter(({ id }) => id !== question.id) };
  return [answer, ...drafts(candidate, answered, { ...from, said: question.unsure.text })];
}

function unsureBody(text: string, reason: string, candidates: Unsure["candidates"]): EntryBody {
  return { kind: "unsure", unsure: { text, reason, candidates } };
}
