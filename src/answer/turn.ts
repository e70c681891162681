import type { Context } from "../meaning/context.ts";
import type { Phrase } from "../meaning/heard.ts";
import type { Command, Meaning } from "../meaning/item.ts";
import type { Parser } from "../meaning/parser.ts";
import { type Amended, type Amendment, amendByHand } from "../visit/by-hand.ts";
import { entriesOf } from "../visit/enter.ts";
import type { Entry } from "../visit/entry.ts";
import { foldVisit, withEntries } from "../visit/fold.ts";
import type { VisitState } from "../visit/state.ts";
import type { Visit } from "../visit/visit.ts";
import { contextOf } from "./context.ts";
import { type Reply, replyTo } from "./reply.ts";
import { type Talkativeness, talkAfter } from "./talk.ts";

export type { Reply };

/** What one phrase does: entries to store first, the visit with them, and what to answer then. */
export interface Turn {
  readonly entries: Entry[];
  readonly visit: Visit;
  readonly meaning: Meaning;
  readonly reply: Reply;
  /** For the next phrase: the commands that were answered last, where nothing was logged with or after them. */
  readonly asked: readonly Command[];
}

/**
 * Takes one phrase: words to meaning to entries to judgement to reply. Pure: `now` is ISO 8601, `newId` gives a fresh id
 * for each entry, and the visit handed in is not changed. `talk` is how much is said; `talkAfter` gives the level for the next.
 * `asked` is that of the turn before: what "repeat" repeats.
 */
export function takeTurn(
  parser: Parser,
  visit: Visit,
  phrase: Phrase,
  now: string,
  newId: () => string,
  talk: Talkativeness = "normal",
  asked: readonly Command[] = [],
): Turn {
  const before = foldVisit(visit);
  const meaning = meaningOf(parser, phrase, contextOf(before));
  const entries = entriesOf(meaning, phrase, before, now, newId);
  const longer = withEntries(visit, entries);
  const state = foldVisit(longer);
  const commands = meaning.items.flatMap((item) => (item.kind === "command" ? [item.command] : []));
  const repeats = commands.includes("repeat");
  const last = repeats ? saidBefore(before, visit, now, talk, asked) : "";
  const reply = replyTo(state, entries, commands, now, last, talk);
  return {
    entries,
    visit: longer,
    meaning,
    reply,
    asked: entries.length > 0 ? [] : repeats || commands.length === 0 ? asked : commands,
  };
}

/** What was read back and confirmed is asked about no more for how it was heard; the log keeps how sure that was. */
function meaningOf(parser: Parser, phrase: Phrase, context: Context): Meaning {
  const { text, confidence, confidences = confidence } = phrase;
  if (!phrase.confirmed) return parser.parse(text, context, confidences);
  const meaning = parser.parse(text, context, 1);
  const items = meaning.items.map((item) =>
    item.kind === "reading" ? { ...item, confidence: Math.min(item.confidence, confidence) } : item,
  );
  return { ...meaning, items };
}

/** What a correction by hand does, as a turn does; or why it cannot be, with what may have been meant. */
export type Amending =
  | { readonly ok: true; readonly turn: Pick<Turn, "entries" | "visit" | "reply"> }
  | Extract<Amended, { ok: false }>;

/** Takes one correction by hand. Pure, as `takeTurn`. */
export function takeAmendment(
  parser: Parser,
  visit: Visit,
  amendment: Amendment,
  now: string,
  newId: () => string,
  talk: Talkativeness = "normal",
): Amending {
  const before = foldVisit(visit);
  const parse = (text: string, context: Context) => parser.parse(text, context);
  const amended = amendByHand(amendment, before, parse, now, newId);
  if (!amended.ok) return amended;
  const { entries } = amended;
  const longer = withEntries(visit, entries);
  const reply = replyTo(foldVisit(longer), entries, [], now, "", talk);
  return { ok: true, turn: { entries, visit: longer, reply } };
}

/** What was answered last, as it is now: to a question once more, to what was logged a little fuller. */
function saidBefore(
  state: VisitState,
  visit: Visit,
  now: string,
  talk: Talkativeness,
  asked: readonly Command[],
): string {
  if (asked.length > 0) return replyTo(state, [], asked, now, "", talk).answer;
  return replyTo(state, lastUtterance(visit), [], now, "", talkAfter(talk, "more-talk")).answer;
}

/** What to show of a visit that goes on, without a new phrase: the last utterance, judged as of `now` (ISO 8601). */
export function standing(visit: Visit, now: string, talk: Talkativeness = "normal"): Reply {
  return replyTo(foldVisit(visit), lastUtterance(visit), [], now, "", talk);
}

/** The entries of the last phrase that logged something: they were stored together. */
function lastUtterance({ entries }: Visit): Entry[] {
  const last = entries.at(-1);
  const from = entries.findLastIndex(({ at, phrase }) => at !== last?.at || phrase !== last.phrase) + 1;
  return entries.slice(from);
}
