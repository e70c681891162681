import type { ActionWord } from "./actions.ts";
import { hasVerb, isThing, type Sentence } from "./thing.ts";
import { isOfTrade } from "./trade-words.ts";
import { BOUND, CONJUNCTIONS, DETERMINERS, POSSIBLE, TIES } from "./vocabulary.ts";
import type { Word } from "./words.ts";

// What stands around a verb and tells how it is meant.

/** "boiler dirty cleaned it", "air in it bled the top floor": what follows is what it was done to. */
export function isActive(s: Sentence, place: number): boolean {
  const { words } = s;
  const word = words[place];
  if (word?.stop !== "") return false;
  if (/^(?:it|them)$/.test(word.norm)) return true;
  let end = place;
  while (DETERMINERS.has(words[end]?.norm ?? "")) end++;
  if (end === place) return false;
  const thing = end;
  while (isThing(s, end) && words[end]?.stop === "") end++;
  return end > thing && !hasVerb(s, end);
}

/** "owner advised to …", "caretaker told about …": they were, by us. */
export function isToldPassively({ words }: Sentence, place: number, act: ActionWord): boolean {
  const next = words[place + act.length];
  return act.action === "tell" && (next?.stop !== "" || /^(?:to|of|about|that|and|by)$/.test(next.norm));
}

/** "gasket to be replaced": a form that is base and past is past after a "be". */
export function isPassiveHelped(helpers: readonly string[]): boolean {
  return (
    (helpers.some((word) => /^(?:be|been|being|was|were|have|has|had|i've|we've)$/.test(word)) &&
      !helpers.includes("to")) ||
    helpers.at(-1) === "be" ||
    helpers.at(-1) === "been"
  );
}

/**
 * "has to be taken apart and cleaned", "should be drained and the filter cleaned": the place of the verb before it that has
 * the "be" for both.
 */
export function sharedBe({ words }: Sentence, from: number, start: number): number | null {
  let and = from - 1;
  while (and > start && and > from - FAR && words[and + 1]?.stop === "" && words[and]?.norm !== "and") and--;
  if (words[and]?.norm !== "and" || words[and]?.stop !== "") return null;
  for (let at = and - 1; at > and - FAR && at > start; at--) {
    if (words[at]?.tags.has("PastTense") && words[at - 1]?.norm === "be") return at;
    if (words[at]?.stop !== "") return null;
  }
  return null;
}

const FAR = 5;

/** "has to come off and be cleaned". */
export function isAfterBound({ words }: Sentence, from: number): boolean {
  if (words[from - 1]?.norm !== "and") return false;
  for (let at = from - 2; at > from - FAR && words[at + 1]?.stop === ""; at--) {
    const isTo = words[at]?.norm === "to" && /^(?:has|have|needs?|is|are)$/.test(words[at - 1]?.norm ?? "");
    if (isTo || BOUND.has(words[at]?.norm ?? "")) return true;
  }
  return false;
}

/** "opened the case to check the fan": what was done it for, not what is to be done. */
export function isAfterDeed({ words }: Sentence, to: number, { start }: { readonly start: number }): boolean {
  for (let at = to - 1; at >= start; at--) {
    const word = words[at];
    if (!word) return false;
    if (word.tags.has("PastTense") && !DETERMINERS.has(words[at - 1]?.norm ?? "")) return true;
    if (word.stop !== "" || CONJUNCTIONS.has(word.norm)) return false;
  }
  return false;
}

/** "have the caretaker clear it": who is to do it, by somebody's order. */
export function isHaveDone(s: Sentence, who: number): boolean {
  let at = who - 1;
  while (DETERMINERS.has(s.words[at]?.norm ?? "") || s.words[at]?.norm === "building") at--;
  const [word, before] = [s.words[at], s.words[at - 1]];
  if (!word || !/^(?:have|make)$/.test(word.norm)) return false;
  return (
    word.stop !== "" || CONJUNCTIONS.has(before?.norm ?? "") || /^(?:to|please)$/.test(before?.norm ?? "")
  );
}

/** Somebody by what he is, who has no role: "the other man", "a neighbour". */
export function isMan(word: Word): boolean {
  return (word.tags.has("Actor") && !isOfTrade(word.norm)) || MEN.test(word.norm);
}

const MEN =
  /^(?:(?:neighbour|lad|bloke|chap|guy|firm|builder|joiner|plasterer|roofer|contractor|brother|sister|son|daughter)s?|wife|husband|company|father|mother|council)$/;

/** "once it is dry we can refit the case": what is so first makes it more than possible. */
export function isOnceSo(s: Sentence, helpers: readonly string[], start: number): boolean {
  const isLed = s.isWhen(start) && /^(?:when|once|after|as)$/.test(s.words[start]?.norm ?? "");
  return isLed && helpers.includes("can") && !helpers.some((word) => word !== "can" && POSSIBLE.has(word));
}

/** "filter manky clean next time", "fan on order fit when in": an order for when, behind what a thing is like. */
export function isBareOrder(s: Sentence, place: number, act: ActionWord): boolean {
  const before = s.words[place - 1];
  if (!before || s.words[place]?.stop !== "" || !/^(?:clean|change|flush|fit)$/.test(act.base)) return false;
  if (!s.isWhen(place + act.length) || DETERMINERS.has(before.norm) || TIES.has(before.norm)) return false;
  const isSaid = before.tags.has("Verb") || before.tags.has("Preposition") || before.tags.has("Adverb");
  if (/^(?:order|stock)$/.test(before.norm)) return true;
  return !isSaid && s.words[place - 2]?.stop !== undefined && isThing(s, place - 2);
}

/** "could somebody …": somebody is asked. */
export function isCould({ words }: Sentence, place: number): boolean {
  return /^(?:can|could|will|would)$/.test(words[place]?.norm ?? "");
}
