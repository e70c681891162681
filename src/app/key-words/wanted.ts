import type { KeyWord } from "../../device/spotter/words.ts";
import { isOnly } from "../../visit/answers.ts";
import { openQuestion } from "../../visit/questions.ts";
import type { VisitState } from "../../visit/state.ts";
import { isFigureWord } from "./figures.ts";

/** The word that wakes the phrase recogniser. */
export const WAKE_WORD = "mark";

/** The phrase that a word stands for; null for one that is part of a number, or means nothing by itself. */
const PHRASES: Readonly<Partial<Record<KeyWord, string>>> = {
  again: "say again",
  next: "what's next",
  stop: "stop listening",
  yes: "yes",
  no: "no",
  high: "high",
  low: "low",
};

export function phraseFor(word: KeyWord): string | null {
  return PHRASES[word] ?? null;
}

/** Whether a word does the same whatever is asked. */
export function isSteering(word: KeyWord): boolean {
  return word === "again" || word === "next" || word === "stop";
}

/** Whether a word does something now: it steers, or can answer the question that is open. */
export function isWanted(word: KeyWord, state: VisitState): boolean {
  if (isSteering(word)) return true;
  const asked = openQuestion(state)?.unsure;
  if (!asked || word === WAKE_WORD) return false;
  if (word === "no") return true;
  const { question } = asked;
  if (word === "yes") return question === undefined || isOnly(asked);
  if (word === "high" || word === "low") return question?.asks === "screw";
  return question?.asks === "value" && isFigureWord(word);
}
