import { z } from "zod";
import { AIR_O2_PERCENT, co2Max } from "../combustion/dilution.ts";
import { type Context, NO_CONTEXT } from "../meaning/context.ts";
import type { Item, Meaning, Unsure } from "../meaning/item.ts";
import { stateBefore } from "./before.ts";
import { Details } from "./details.ts";
import { entriesOf } from "./enter.ts";
import { type Entry, type EntryBody, type ItemBody, Reviewer } from "./entry.ts";
import { cannot, type Instead, instead, notClear } from "./instead.ts";
import { isItemBody } from "./item-body.ts";
import { knownIn } from "./known.ts";
import { missingIn } from "./missing.ts";
import type { LoggedItem, UnsureThing, VisitState } from "./state.ts";
import { isWithin, MOST_TASKS, Task } from "./task.ts";

/** A correction by hand, of the item or the unsure entry `id`, or the mark that a visit was looked through. */
export type Amendment =
  | { readonly kind: "strike"; readonly id: string }
  /** What was struck stands again. */
  | { readonly kind: "put-back"; readonly id: string }
  /** Looked at, and as it should be. */
  | { readonly kind: "confirm"; readonly id: string }
  /** As the same words would by voice, but of this one: "9.4", "CO2 9.4", "low fire", "quarter out", "celsius". */
  | { readonly kind: "mend"; readonly id: string; readonly text: string }
  /** One of the things that may have been meant. */
  | { readonly kind: "pick"; readonly id: string; readonly item: Item }
  /** Of an unsure entry: it was nothing for the log. */
  | { readonly kind: "leave-out"; readonly id: string }
  | { readonly kind: "review"; readonly by: string }
  /** Where, with what and by whom; all of them anew. */
  | { readonly kind: "details"; readonly details: Details }
  /** What a note means, all of it anew. */
  | { readonly kind: "tasks"; readonly id: string; readonly tasks: readonly Task[] };

/** The entries that an amendment adds, or in one sentence why it cannot be, with what may have been meant. */
export type Amended =
  | { readonly ok: true; readonly entries: Entry[] }
  | { readonly ok: false; readonly problem: string; readonly candidates: readonly Item[] };

/** The parser, for typed words. */
export type Parse = (text: string, context: Context) => Meaning;

/** What a correction comes to before it has its place in the log. */
type Bodies = { readonly ok: true; readonly bodies: readonly EntryBody[] } | Extract<Amended, { ok: false }>;

/**
 * The entries of an amendment. What an unsure entry was after all counts at the time and place at which it was said. Pure:
 * `now` is ISO 8601, `newId` gives a fresh id per entry. Never throws.
 */
export function amendByHand(
  amendment: Amendment,
  state: VisitState,
  parse: Parse,
  now: string,
  newId: () => string,
): Amended {
  const found = bodiesOf(amendment, state, parse);
  if (!found.ok) return found;
  const text = amendment.kind === "mend" ? amendment.text.trim() : "";
  const entries = found.bodies.map(
    (body, place): Entry => ({
      id: newId(),
      seq: state.nextSeq + place,
      at: now,
      engine: "typed",
      phrase: text,
      said: text,
      confidence: 1,
      body,
    }),
  );
  return { ok: true, entries };
}

function bodiesOf(amendment: Amendment, state: VisitState, parse: Parse): Bodies {
  if (amendment.kind === "review") {
    const by = Reviewer.safeParse(amendment.by.trim());
    return by.success ? only({ kind: "reviewed", by: by.data }) : cannot("Type your name, up to 80 letters.");
  }
  if (amendment.kind === "details") {
    const details = Details.safeParse(amendment.details);
    return details.success
      ? only({ kind: "details", details: details.data })
      : cannot("Each of the details has to be one short line.");
  }
  const item = state.items.find(({ id }) => id === amendment.id);
  if (amendment.kind === "tasks") return tasks(amendment.tasks, item);
  if (item) return ofItem(amendment, item, state, parse);
  const thing = state.unsure.find(({ id }) => id === amendment.id);
  return thing ? ofUnsure(amendment, thing, state, parse) : cannot("That is not in this visit.");
}

function only(body: EntryBody): Bodies {
  return { ok: true, bodies: [body] };
}

function tasks(meant: readonly Task[], item: LoggedItem | undefined): Bodies {
  if (item?.body.kind !== "note" || item.struckBy !== null) return cannot("That is no note that stands.");
  const parsed = z.array(Task).max(MOST_TASKS).safeParse(meant);
  if (!parsed.success) return cannot(`A note has at most ${MOST_TASKS} tasks, each with an action.`);
  const { text } = item.body;
  if (!parsed.data.every((task) => isWithin(task, text))) return cannot("That is not in the note's words.");
  return only({ kind: "tasks", target: item.id, tasks: parsed.data });
}

type OfOne = Exclude<Amendment, { kind: "review" | "details" | "tasks" }>;

function ofItem(amendment: OfOne, item: LoggedItem, state: VisitState, parse: Parse): Bodies {
  const { id: target, struckBy, body } = item;
  switch (amendment.kind) {
    case "strike":
    case "leave-out":
      return struckBy === null ? only({ kind: "strike", target }) : cannot("That is struck already.");
    case "put-back":
      return struckBy === null
        ? cannot("That stands already.")
        : only({ kind: "replace", target, with: body });
    case "confirm":
      return struckBy === null ? only({ kind: "replace", target, with: body }) : cannot("That is struck.");
    case "pick":
      return asReplacement(target, instead(body, amendment.item, stateBefore(state, item.seq)));
    case "mend":
      return mended(amendment.text, item, state, parse);
  }
}

function asReplacement(target: string, made: Instead): Bodies {
  return made.ok ? only({ kind: "replace", target, with: made.body }) : made;
}

function mended(text: string, { id, seq, body }: LoggedItem, state: VisitState, parse: Parse): Bodies {
  const before = stateBefore(state, seq);
  const meaning = understood(text, contextFor(body, before), parse);
  const said = meaning.items.filter((item) => !isYesOrNo(item));
  // "No, an eighth" strikes the turn and says it anew: here that is one mend.
  const things = said.length > 1 ? said.filter(({ kind }) => kind !== "strike") : said;
  const [thing, ...others] = [...things, ...meaning.unsure.map(bareNumber)];
  if (body.kind === "note" && !(thing && "kind" in thing && thing.kind === "note")) return note(id, text);
  if (!thing) return notUnderstood(text);
  if (others.length > 0) return cannot("One thing at a time.");
  if ("reason" in thing) return notClear(thing);
  if (thing.kind === "strike") return only({ kind: "strike", target: id });
  return asReplacement(id, instead(body, thing, before));
}

function note(target: string, typed: string): Bodies {
  const text = typed.trim();
  return text === "" ? notUnderstood(typed) : only({ kind: "replace", target, with: { kind: "note", text } });
}

function notUnderstood(text: string): Extract<Amended, { ok: false }> {
  return cannot(
    text.trim() === "" ? "Type what it was." : `Nothing in “${text.trim()}” says what it was instead.`,
  );
}

function isYesOrNo(item: Item): boolean {
  return item.kind === "command" && (item.command === "yes" || item.command === "no");
}

/** A number alone is of what is mended. */
function bareNumber(unsure: Unsure): Item | Unsure {
  const { question } = unsure;
  if (question?.asks !== "quantity") return unsure;
  return { kind: "replace", value: question.value, unit: question.unit };
}

/** What words mean, said of this alone; where that is nothing, as a correction: "celsius" is "no, celsius". */
function understood(text: string, context: Context, parse: Parse): Meaning {
  const bare = parse(text, context);
  if (bare.items.length > 0 || bare.unsure.some(({ candidates }) => candidates.length > 0)) return bare;
  const denied = parse(`no, ${text}`, { ...context, question: null });
  return denied.items.some((item) => !isYesOrNo(item)) ? denied : bare;
}

/** What the parser has to know to read words as said of one item. */
function contextFor(body: ItemBody, before: VisitState): Context {
  const context = contextAt(before);
  switch (body.kind) {
    case "reading": {
      const { quantity, condition } = body;
      return {
        ...context,
        question: { asks: "value", quantity, firing: null, condition },
        read: body.firing,
      };
    }
    case "adjustment":
      return { ...context, turn: { adjuster: body.adjuster, turns: body.turns } };
    case "check":
      return { ...context, open: [body.item] };
    case "firing":
    case "note":
    case "mark":
      return context;
  }
}

function contextAt(before: VisitState): Context {
  return {
    ...NO_CONTEXT,
    firing: before.firing?.firing ?? null,
    known: knownIn(before),
    gas: { co2Max: co2Max(before.head.fuel), o2InAir: AIR_O2_PERCENT },
  };
}

function ofUnsure(amendment: OfOne, thing: UnsureThing, state: VisitState, parse: Parse): Bodies {
  const { id: target, settled, unsure, seq } = thing;
  if (settled?.how === "accepted") return cannot("That was answered: mend what was logged then.");
  const before = stateBefore(state, seq);
  switch (amendment.kind) {
    case "strike":
    case "leave-out":
      return settled ? cannot("That is settled already.") : only({ kind: "answer", target, accepted: false });
    case "put-back":
    case "confirm":
      return cannot("That was never logged: say what it was.");
    case "pick":
      return told({ text: "", items: [amendment.item], unsure: [] }, "", thing, state, before);
    case "mend": {
      const { text } = amendment;
      const question = missingIn(unsure, before);
      const meaning = understood(text, { ...contextAt(before), question }, parse);
      const asked = { ...before, questions: [thing] };
      return told(meaning, text, thing, state, question ? asked : before);
    }
  }
}

/** What an unsure thing was: entered as if it were said then, and put in its place. */
function told(
  meaning: Meaning,
  text: string,
  { id: target, at, said }: UnsureThing,
  state: VisitState,
  then: VisitState,
): Bodies {
  let ids = 0;
  const phrase = { text: text || said, engine: "typed", confidence: 1, sound: null } as const;
  const bodies = entriesOf(meaning, phrase, then, at, () => `told ${ids++}`)
    .map(({ body }) => body)
    .filter(({ kind }) => kind !== "answer");
  const [body, ...others] = bodies;
  if (!body) return notUnderstood(text);
  if (others.length > 0) return cannot("One thing at a time.");
  if (isItemBody(body)) return only({ kind: "replace", target, with: body });
  switch (body.kind) {
    case "unsure":
      return notClear(body.unsure);
    case "strike":
    case "replace": {
      const item = state.items.find(({ id }) => id === body.target);
      if (item?.struckBy !== null) return cannot("What that was said of is struck.");
      return { ok: true, bodies: [{ kind: "answer", target, accepted: true }, body] };
    }
    case "answer":
    case "reviewed":
    case "details":
    case "tasks":
      return notUnderstood(text);
  }
}
