import { judge } from "../judge/judge.ts";
import type { Judgement } from "../judge/judgement.ts";
import type { Command } from "../meaning/item.ts";
import { quantityOf } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import type { Entry } from "../visit/entry.ts";
import type { VisitState } from "../visit/state.ts";
import { commandAnswer } from "./commands.ts";
import { type Effect, effectOf } from "./effect.ts";
import { freshReadings, readBack, type Talk } from "./logged.ts";
import { questionOf } from "./question.ts";
import type { Talkativeness } from "./talk.ts";
import { sentence, shownText, wordCount } from "./text.ts";
import { spokenBody } from "./things.ts";

/** What is said and shown in reply to one utterance. */
export interface Reply {
  /** To be spoken; empty where the utterance was not for the log. */
  readonly answer: string;
  /** The one large thing on screen: "CO2 9.2 %". */
  readonly headline: string;
  /** The line under it: what comes next. */
  readonly detail: string;
  readonly judgement: Judgement;
  readonly effect: Effect;
}

/** When all is well an answer has at most this many words. */
const SHORT = 10;

/** From the most to the least talkative; the first that is short enough is said. */
const TALK: readonly (Talk & { readonly next: boolean })[] = [
  { places: true, names: true, next: true },
  { places: false, names: true, next: true },
  { places: false, names: false, next: true },
  { places: false, names: true, next: false },
  { places: false, names: false, next: false },
];
const FULL: Talk = { places: true, names: true };

/**
 * The reply to an utterance that brought the entries `since` (already in `state`) and gave these commands. `now` is
 * ISO 8601; `last` is what "repeat" repeats.
 */
export function replyTo(
  state: VisitState,
  since: readonly Entry[],
  commands: readonly Command[],
  now: string,
  last = "",
  _talk: Talkativeness = "normal",
): Reply {
  const judgement = judge(state, since, now);
  const answers = commands
    .filter((command) => !answered(command, since))
    .map((command) => commandAnswer(command, state, judgement, now, last));
  const heard = since.length > 0 || commands.length > 0;
  return {
    answer: heard ? compose(state, since, judgement, answers) : "",
    headline: headlineOf(state, since),
    detail: shownText(judgement.next),
    judgement,
    effect: effectOf(commands),
  };
}

/** "Yes" and "no" are answered by what was logged or asked with them. */
function answered(command: Command, since: readonly Entry[]): boolean {
  return (command === "yes" || command === "no") && since.length > 0;
}

/** Warnings, then what was logged with its verdicts, then one instruction or one question. */
function compose(
  state: VisitState,
  since: readonly Entry[],
  judgement: Judgement,
  answers: readonly string[],
): string {
  const warnings = judgement.warnings.map(({ text }) => text);
  const question = questionOf(state, since);
  const next = question === "" && wantsNext(state, since) && !warnings.includes(judgement.next);
  const unjudged = unjudgedNote(state, judgement);
  const say = (talk: Talk, withNext: boolean) =>
    [
      ...warnings,
      // A warning that begins with the reading has read it back already.
      ...readBack(state, since, judgement, talk).filter((text) => !warnings.some((w) => w.startsWith(text))),
      unjudged,
      ...answers,
      withNext && next ? judgement.next : "",
      question,
    ]
      .filter((text) => text !== "")
      .join(" ");
  if (!isWell(judgement) || question !== "") return say(FULL, true);
  const short = TALK.map((talk) => say(talk, talk.next)).find((text) => wordCount(text) <= SHORT);
  return short ?? say({ places: false, names: true }, false);
}

function isWell({ verdicts, advice, warnings }: Judgement): boolean {
  const bad = verdicts.some(({ verdict }) => verdict === "fail" || verdict === "wait");
  return warnings.length === 0 && !bad && advice.action !== "turn" && advice.action !== "stop";
}

/** Whether the utterance moved the work on, and there are limits to advise by. */
function wantsNext(state: VisitState, since: readonly Entry[]): boolean {
  if (!state.head.sheet?.fuels[state.head.fuel]) return false;
  return since.some(({ body }) =>
    ["reading", "replace", "firing", "adjustment", "check", "strike"].includes(body.kind),
  );
}

/** Readings that cannot be judged at all say so. */
function unjudgedNote({ head }: VisitState, { verdicts }: Judgement): string {
  if (verdicts.length === 0) return "";
  if (!head.sheet) return "No sheet, not judged.";
  return head.sheet.fuels[head.fuel] ? "" : "This sheet has no limits for this gas.";
}

function headlineOf(state: VisitState, since: readonly Entry[]): string {
  const question = questionOf(state, since);
  if (question !== "") return shownText(question);
  const reading = (freshReadings(state, since)[0] ?? (since.length === 0 ? state.readings.at(-1) : undefined))
    ?.reading;
  if (reading) return `${quantityOf(reading.quantity).name} ${shownValue(reading.value, reading.unit)}`;
  const item = state.items.findLast(
    ({ id, struckBy }) => struckBy === null && since.some((e) => e.id === id),
  );
  if (item) return shownText(sentence(spokenBody(item.body)).replace(/\.$/, ""));
  return since.some(({ body }) => body.kind === "strike") ? "Struck" : "Ready";
}
