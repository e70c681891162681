import { judge } from "../judge/judge.ts";
import type { Judgement } from "../judge/judgement.ts";
import type { Command } from "../meaning/item.ts";
import { sentence, sentencesOf, shownText, wordCount } from "../measure/text.ts";
import { derive } from "../visit/derive.ts";
import type { Entry } from "../visit/entry.ts";
import { openQuestion } from "../visit/questions.ts";
import type { VisitState } from "../visit/state.ts";
import { type Asked, asksForNext, commandAnswer } from "./commands.ts";
import { derivedSaid } from "./derived.ts";
import { type Earcon, earconOf } from "./earcon.ts";
import { type Effect, effectOf } from "./effect.ts";
import { headlineOf } from "./headline.ts";
import { instruction, type Wording } from "./instruction.ts";
import { type Detail, isOpen, readBack } from "./logged.ts";
import { noLimits } from "./no-limits.ts";
import { openQuestionAgain, questionOf } from "./question.ts";
import type { Talkativeness } from "./talk.ts";

/** What is said and shown in reply to one utterance. */
export interface Reply {
  /** To be spoken; empty where the utterance was not for the log. */
  readonly answer: string;
  /** The tone before it. */
  readonly earcon: Earcon;
  /** The one large thing on screen: "CO2 9.2 %". */
  readonly headline: string;
  /** The line under it: what comes next. */
  readonly detail: string;
  readonly judgement: Judgement;
  readonly effect: Effect;
}

/** When all is well a normal answer has at most this many words. */
const FEW_WORDS = 10;

/** One way to say an answer. */
interface Style extends Detail {
  /** The next step, null where it is left out. */
  readonly next: Wording | null;
}

const SHORT: Style = { places: false, names: false, limits: "none", next: "fewest" };
const PLAIN: Style = { places: true, names: true, limits: "failing", next: "plain" };
const FULL: Style = { places: true, names: true, limits: "all", next: "reasoned" };

/**
 * From the most to the least talkative; where all is well, the first that is short enough is said. Of several quantities
 * the names stay where there is room: "nine, twelve" may be heard as the other way round.
 */
const WELL: readonly Style[] = [
  PLAIN,
  { ...PLAIN, places: false },
  { ...SHORT, names: true, next: "plain" },
  { ...SHORT, names: true },
  // Which is which can be told from the numbers; what to do next cannot.
  { ...SHORT, next: "plain" },
  SHORT,
  { ...SHORT, names: true, next: null },
  { ...SHORT, next: null },
];

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
  talk: Talkativeness = "normal",
): Reply {
  const judgement = questionFirst(judge(state, since, now), state);
  const heard = since.length > 0 || commands.length > 0;
  // A question that is still open is the next thing to do.
  const question = questionOf(state, since) || (commands.some(asksForNext) ? openQuestionAgain(state) : "");
  return {
    earcon: heard ? earconOf(judgement, question, since) : "none",
    answer: heard ? compose({ state, judgement, now, last, talk }, since, commands, question) : "",
    headline: headlineOf(state, since, judgement),
    detail: shownText(judgement.next),
    judgement,
    effect: isOver(state, since, judgement) ? "stop-listening" : restOr(effectOf(commands), state),
  };
}

/**
 * Whether just this ended the work: it was declared finished, or its last open point closed. Then nobody has to be heard any
 * more, and what is said from now on is for other ears.
 */
function isOver(state: VisitState, since: readonly Entry[], judgement: Judgement): boolean {
  const ends = since.some(
    ({ body }) => body.kind === "check" || (body.kind === "mark" && body.mark === "finished"),
  );
  return ends && state.finished && !isOpen(judgement) && openQuestion(state) === null;
}

/** Once the work is finished nobody has to be woken for it. */
function restOr(effect: Effect, { finished }: VisitState): Effect {
  return effect === "rest" && finished ? "stop-listening" : effect;
}

/** While a question is open no screw is to be turned: what it is about may be the value that the turn hangs on. */
function questionFirst(judgement: Judgement, state: VisitState): Judgement {
  if (judgement.advice.action !== "turn" || openQuestion(state) === null) return judgement;
  return { ...judgement, advice: { action: "none" }, next: "" };
}

/** Warnings, then what was logged with its verdicts, then one instruction or one question. */
function compose(
  asked: Asked,
  since: readonly Entry[],
  commands: readonly Command[],
  question: string,
): string {
  const { state, judgement, talk } = asked;
  const warnings = judgement.warnings.map(({ text }) => text);
  const asksNext = commands.some(asksForNext);
  const answers = commands
    .filter((command) => !isAnswered(command, since))
    .flatMap((command) => commandAnswer(command, asked));
  const derived = talk === "short" ? [] : derivedSaid(state, since, asked.now);
  const wantsNext = question === "" && (movesOn(state, since, judgement) || asksNext);
  const again = reopened(state, since);
  const say = ({ next, ...detail }: Style) => {
    const step = wantsNext && next ? instruction(state, judgement, next) : "";
    const { others, readings } = readBack(state, since, judgement, detail);
    return joined([
      ...warnings,
      again ? "Visit open again." : "",
      ...others,
      ...readings.map((text) => afterWarnings(text, warnings)),
      judgement.verdicts.length > 0 ? noLimits(state.head) : "",
      ...derived,
      ...answers,
      isSaidIn([...warnings, ...answers], judgement.next) ? "" : step,
      question,
    ]);
  };
  if (talk === "full") return say(FULL);
  if (talk === "short") return say(commands.includes("advice") ? { ...SHORT, next: "plain" } : SHORT);
  const extra = again || asksNext || question !== "" || answers.length + derived.length > 0;
  if (extra || !isWell(state, judgement)) return say(PLAIN);
  return WELL.map(say).find((text) => text !== "" && wordCount(text) <= FEW_WORDS) ?? say(SHORT);
}

/** One text of all the sentences, each said once. */
function joined(parts: readonly string[]): string {
  return [...new Set(parts.flatMap(sentencesOf))].join(" ");
}

/** What is left to say of a reading: a warning that begins with it, or with its name, has read it back already. */
function afterWarnings(text: string, warnings: readonly string[]): string {
  const [value = ""] = text.split(/[,.]/);
  const isSaid = warnings.some((warning) => {
    const [begun = ""] = warning.split(/[,.]/);
    return ` ${begun.toLowerCase()}`.endsWith(` ${value.toLowerCase()}`);
  });
  return isSaid ? sentence(text.slice(value.length + 1)) : text;
}

/** Whether the next step was said already in the same words: "Too early: wait ten seconds more." */
function isSaidIn(said: readonly string[], next: string): boolean {
  const words = next.toLowerCase().replace(/\.$/, "");
  return said.some((text) => text.toLowerCase().includes(words));
}

/** "Yes" and "no" are answered by what was logged or asked with them. */
function isAnswered(command: Command, since: readonly Entry[]): boolean {
  return (command === "yes" || command === "no") && since.length > 0;
}

function isWell({ head }: VisitState, { verdicts, advice, warnings }: Judgement): boolean {
  const bad = verdicts.some(({ verdict }) => verdict === "fail" || verdict === "wait");
  const wrongGas = head.sheet !== null && noLimits(head) !== "";
  return warnings.length === 0 && !bad && !wrongGas && advice.action !== "turn" && advice.action !== "stop";
}

/** Whether something was logged, and there is something to advise by. */
function movesOn({ head }: VisitState, since: readonly Entry[], { advice, stage }: Judgement): boolean {
  // Who closes the last point of a finished visit hears that it was the last.
  if (stage === "finished") return since.some(({ body }) => body.kind === "check");
  const canAdvise = noLimits(head) === "" || advice.action !== "none";
  return canAdvise && since.some(({ body }) => body.kind !== "unsure");
}

/** Whether the utterance took up a visit that had been declared finished. */
function reopened(state: VisitState, since: readonly Entry[]): boolean {
  const [first] = since;
  if (!first || state.finished) return false;
  return derive(state.items.filter(({ seq }) => seq < first.seq)).finished;
}
