import type { Phrase } from "../meaning/heard.ts";
import type { Command, Item, Meaning, ReadingItem } from "../meaning/item.ts";
import { quantityOf, refusal } from "../measure/quantity.ts";
import { amendDrafts } from "./amend.ts";
import { howMuch, ofSameScrew, withItsDial, withItsNumber, yesOrNo } from "./answers.ts";
import { completeReading } from "./assume.ts";
import { mendInstead, replaceDrafts, strikeBody } from "./correct.ts";
import { type Draft, OUT_OF_BOUNDS, type Said, unsureBody } from "./draft.ts";
import type { Entry, EntryBody, Mark } from "./entry.ts";
import { step } from "./fold.ts";
import { openQuestion, screwAsked } from "./questions.ts";
import type { VisitState } from "./state.ts";

const WHICH_SCREW = "which screw was not said";

/** The commands that are kept in the log, as what. */
export const MARKS: Readonly<Partial<Record<Command, Mark>>> = {
  "mark-as-found": "as-found",
  "mark-as-left": "as-left",
  "start-timer": "timer-start",
  "finish-visit": "finished",
  acknowledge: "acknowledged",
  "gas-smell": "gas-smell",
  "co-alarm": "co-alarm",
};

/**
 * The entries that one phrase adds to the log, in spoken order, then what was not understood. `now` is ISO 8601;
 * `newId` gives a fresh id per entry. Nothing is lost silently: what cannot be logged becomes an unsure entry.
 */
export function entriesOf(
  heard: Meaning,
  phrase: Phrase,
  state: VisitState,
  now: string,
  newId: () => string,
): Entry[] {
  const meaning = withItsNumber(heard, state);
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
      ...(phrase.rivals && phrase.rivals.length > 0 && { rivals: [...phrase.rivals] }),
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
    log({
      body: { kind: "unsure", unsure: ofSameScrew(unsure, current) },
      said: unsure.text,
      confidence: phrase.confidence,
    });
  }
  return entries;
}

function drafts(item: Item, state: VisitState, from: Said): Draft[] {
  switch (item.kind) {
    case "reading": {
      const mend = mendInstead(item, state);
      return mend ? drafts(mend, state, from) : [readingDraft(item, state)];
    }
    case "firing":
      return [{ ...from, body: { kind: "firing", firing: item.firing } }];
    case "adjustment":
      return [{ ...from, body: adjustmentBody(item, state, from.said) }];
    case "replace":
      return replaceDrafts(item, state, from, (reading) => readingDraft(reading, state));
    case "mend":
      return amendDrafts(item, state, from, (meant) => drafts(meant, state, from));
    case "strike":
      return [{ ...from, body: strikeBody(item, state, from.said) }];
    case "note":
      return [{ ...from, body: { kind: "note", text: item.text } }];
    case "check":
      return [{ ...from, body: { kind: "check", item: item.item, done: item.done } }];
    case "command":
      return commandDrafts(item.command, state, from);
  }
}

function readingDraft(heard: ReadingItem, state: VisitState): Draft {
  const item = withItsDial(heard, state);
  const { said, confidence } = item;
  const reading = completeReading(item, state);
  if (reading !== null) return { said, confidence, body: reading };
  const others = quantityOf(item.quantity).units.filter(
    (unit) => item.unit === null && refusal(item.quantity, item.value, unit) === null,
  );
  const candidates = others.map((unit): Item => ({ ...item, unit }));
  const missing = candidates.length === 0 ? howMuch(item) : undefined;
  return { said, confidence, body: unsureBody(said, OUT_OF_BOUNDS, candidates, missing) };
}

function adjustmentBody(
  item: Extract<Item, { kind: "adjustment" }>,
  state: VisitState,
  text: string,
): EntryBody {
  const { turns } = item;
  const asked = openQuestion(state)?.unsure;
  const said = item.adjuster ?? (asked ? screwAsked(asked) : null);
  if (said !== null) return { kind: "adjustment", adjuster: said, turns, origin: { adjuster: "said" } };
  const adjuster = state.firing?.firing;
  if (adjuster) return { kind: "adjustment", adjuster, turns, origin: { adjuster: "assumed" } };
  const candidates = [
    { kind: "adjustment", adjuster: "high", turns },
    { kind: "adjustment", adjuster: "low", turns },
  ] as const;
  return unsureBody(text, WHICH_SCREW, [...candidates], { asks: "screw", turns });
}

function commandDrafts(command: Command, state: VisitState, from: Said): Draft[] {
  const mark = MARKS[command];
  if (mark) return [{ ...from, body: { kind: "mark", mark } }];
  return command === "yes" || command === "no" ? yesOrNo(command, state, from, drafts) : [];
}
