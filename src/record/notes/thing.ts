import { actionAt } from "./actions.ts";
import { roleOf } from "./roles.ts";
import { isOfTrade } from "./trade-words.ts";
import { DETERMINERS, NEVER_THING, NEW, OF_PARTS, TIES } from "./vocabulary.ts";
import type { Word } from "./words.ts";

/** A stretch of words, by their places: `end` is not in it. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** A thing, and whether a new one is meant. */
export interface Thing extends Stretch {
  readonly isNew: boolean;
}

/** What the words of a note are taken for, to find things in them. */
export interface Sentence {
  readonly words: readonly Word[];
  /** Whether a word is of what says when. */
  readonly isWhen: (place: number) => boolean;
  /** Whether names are told by their capitals in this note. */
  readonly hasNames: boolean;
}

const MOST_WORDS = 10;

const PEOPLE = ["Person", "FirstName", "LastName", "Honorific", "ProperNoun", "Pronoun"];

/** Whether a word may be of a thing. A person's name is never kept, nor a word that may be one. */
export function isThing(s: Sentence, place: number): boolean {
  const word = s.words[place];
  if (!word || s.isWhen(place)) return false;
  const { norm, tags } = word;
  if (NEVER_THING.has(norm) || DETERMINERS.has(norm) || TIES.has(norm) || roleOf(norm) !== null) return false;
  if (/'s?$/.test(norm) || norm.endsWith("'s") || isName(s, place)) return false;
  if (isOfTrade(norm)) return true;
  if (OF_PARTS.has(norm) && isOfTrade(s.words[place + 1]?.norm ?? "") && s.words[place + 1]?.stop === "")
    return true;
  if (tags.has("Adverb") || tags.has("Preposition") || tags.has("Conjunction") || tags.has("Expression"))
    return false;
  // "supports", "checks": what is a noun as well.
  const act = actionAt(() => norm);
  if (act?.isCommon && (act.forms.has("third") || (act.forms.has("base") && isAfterNoun(s, place))))
    return true;
  if (act === null && tags.has("Infinitive") && isAfterNoun(s, place)) return true;
  if (!tags.has("Verb") || tags.has("Noun") || tags.has("Adjective") || isTrait(s, place)) return true;
  return tags.has("Gerund") && word.stop === "" && DETERMINERS.has(s.words[place - 1]?.norm ?? "");
}

/** "flue slope": what comes right after the name of a part goes on with it, where it is not the verb of something else. */
function isAfterNoun({ words }: Sentence, place: number): boolean {
  const [before, word, next] = [words[place - 1], words[place], words[place + 1]];
  if (!before || word?.stop !== "") return false;
  if (isOfTrade(before.norm)) return true;
  if (!before.tags.has("Noun")) return false;
  return !(
    next?.stop === "" &&
    (DETERMINERS.has(next.norm) || next.tags.has("Noun") || next.tags.has("Pronoun"))
  );
}

const NAMES = PEOPLE.filter((tag) => tag !== "Pronoun");

/** Whether a word may be somebody's name, or a maker's; "it" and "them" are none. */
export function isPerson(s: Sentence, place: number): boolean {
  const word = s.words[place];
  if (!word || isOfTrade(word.norm)) return false;
  return (
    NAMES.some((tag) => word.tags.has(tag)) ||
    /'s$/.test(word.norm) ||
    (s.hasNames && /^\p{Lu}\p{Ll}/u.test(word.text))
  );
}

/** A word that may be somebody's name, or a maker's. */
function isName({ words, hasNames }: Sentence, place: number): boolean {
  const word = words[place];
  if (!word) return false;
  if (isOfTrade(word.norm)) return false;
  if (PEOPLE.some((tag) => word.tags.has(tag))) return true;
  const isCapital = /^\p{Lu}\p{Ll}/u.test(word.text);
  return hasNames && isCapital && word.stop !== ".";
}

/** "leaking valve", "warning label", "cracked elbow": a verb that says what a thing is like. */
function isTrait(s: Sentence, place: number): boolean {
  const word = s.words[place];
  const next = s.words[place + 1];
  if (!word || next?.stop !== "" || !next.tags.has("Noun")) return false;
  if (word.stop === "" && s.words[place - 1]?.tags.has("Noun")) return false;
  return word.tags.has("Gerund") || (word.tags.has("PastTense") && actionAt(() => word.norm) === null);
}

/**
 * The thing that follows, in the note's own words, from the first after its articles: "the new condensate trap gasket" is
 * "condensate trap gasket". `isVerb` says where a new verb begins.
 */
export function thingAfter(
  s: Sentence,
  place: number,
  isVerb: (place: number, inThing: boolean) => boolean,
): Thing | null {
  const thing = nameAfter(s, place, isVerb);
  return thing && { ...thing, end: withMore(s, thing.end, isVerb) };
}

/** The same without where it is and what else. */
export function nameAfter(
  s: Sentence,
  place: number,
  isVerb: (place: number, inThing: boolean) => boolean,
): Thing | null {
  let start = place;
  let isNew = false;
  for (;;) {
    const word = s.words[start];
    if (!word || (start > place && word.stop !== "") || s.isWhen(start)) break;
    const isOwned = /'s?$/.test(word.norm) || word.norm.endsWith("'s");
    if (!DETERMINERS.has(word.norm) && !isOwned && !(isName(s, start) && isThing(s, start + 1))) break;
    isNew ||= NEW.has(word.norm);
    start++;
  }
  const from = isCount(s, start) ? start + 2 : start;
  const end = endOfThing(s, from, isVerb);
  if (end === from) {
    const isAlone = start > place && s.words[start - 1]?.norm === "replacement";
    return isAlone ? { start: start - 1, end: start, isNew } : null;
  }
  return { start, end, isNew };
}

const SIZE = /^(?:\d+(?:\.\d+)?|one|two|three|four|five|six|seven|eight|nine|ten|[a-z]+(?:ty|teen))$/;

/** "60 by 3": the "by" between the sides of something. */
function isBySize({ words, isWhen }: Sentence, place: number): boolean {
  const [before, word, next] = [words[place - 1], words[place], words[place + 1]];
  if (word?.norm !== "by" || word.stop !== "" || next?.stop !== "" || isWhen(place + 1)) return false;
  return SIZE.test(before?.norm ?? "") && SIZE.test(next.norm);
}

/** "2 off 22 mm valves": so many of them. */
function isCount({ words }: Sentence, place: number): boolean {
  return Boolean(words[place]?.tags.has("Value")) && words[place + 1]?.norm === "off";
}

function endOfThing(
  s: Sentence,
  start: number,
  isVerb: (place: number, inThing: boolean) => boolean,
): number {
  let end = start;
  while (
    end < start + MOST_WORDS &&
    (end === start || s.words[end]?.stop === "") &&
    ((isThing(s, end) && !isVerb(end, end > start)) || (end > start && isBySize(s, end)))
  )
    end++;
  // "fan noisy": what it is like is said of it, and not its name.
  while (end > start + 1 && (isQuality(s.words[end - 1]) || isHowMany(s, end - 1))) end--;
  // A number alone is nothing.
  const words = s.words.slice(start, end);
  return words.some(({ tags, norm }) => !tags.has("Value") && /\p{L}/u.test(norm)) ? end : start;
}

/** "flue clips two missing": how many, and not of the name. */
function isHowMany({ words }: Sentence, place: number): boolean {
  const before = words[place - 1]?.norm ?? "";
  return (
    /^(?:one|two|three|four|five|six)$/.test(words[place]?.norm ?? "") &&
    before.endsWith("s") &&
    isOfTrade(before)
  );
}

export function isQuality(word: Word | undefined): boolean {
  if (!word || isOfTrade(word.norm)) return false;
  // "screen half blocked".
  if (word.norm === "half" || word.norm === "nearly" || word.norm === "all") return true;
  return word.norm.endsWith("ing") || (word.tags.has("Adjective") && !word.tags.has("Noun"));
}

/** With where it is, and with what else: "gasket on the trap", "gasket and seal". What gets its own verb is not of it. */
function withMore(s: Sentence, from: number, isVerb: (place: number, inThing: boolean) => boolean): number {
  let end = endOfList(s, from, isVerb) ?? from;
  for (let more = 0; more < 6; more++) {
    const tie = s.words[end];
    if (!tie || tie.stop === "." || s.isWhen(end)) break;
    const and = pastAnd(s, end);
    if (and === end && (tie.stop !== "" || !TIES.has(tie.norm))) break;
    let start = and === end ? end + 1 : and;
    while (DETERMINERS.has(s.words[start]?.norm ?? "") && s.words[start]?.stop === "") start++;
    if (s.words[start]?.stop !== "" || isVerb(start, false) || s.words[start]?.norm === "case") break;
    const next = endOfThing(s, isCount(s, start) ? start + 2 : start, isVerb);
    if (next <= start || (and > end && hasVerb(s, next))) break;
    // Behind a comma, or "also", only what is plainly one more thing.
    if ((tie.stop === "," || and > end + 1) && !isOver(s, next)) break;
    end = next;
  }
  return end;
}

/** Place behind "and", "and also", "as well as", "plus"; the same place where none stands there. */
function pastAnd({ words }: Sentence, place: number): number {
  const word = (ahead: number) => words[place + ahead]?.norm;
  if (word(0) === "as" && word(1) === "well" && word(2) === "as") return place + 3;
  if (!/^(?:and|&|plus)$/.test(word(0) ?? "")) return place;
  return word(1) === "also" ? place + 2 : place + 1;
}

/** Whether nothing is said of what ends here. */
function isOver(s: Sentence, place: number): boolean {
  const word = s.words[place];
  return (
    word?.stop !== "" || s.isWhen(place) || TIES.has(word.norm) || /^(?:and|&|plus|by|as)$/.test(word.norm)
  );
}

/**
 * Where a list ends: "a fan, an electrode and a gasket", "a fan, an electrode." to the end of the sentence; null where none
 * goes on.
 */
function endOfList(
  s: Sentence,
  from: number,
  isVerb: (place: number, inThing: boolean) => boolean,
): number | null {
  let end = from;
  let isByCommas = true;
  for (let many = 0; many < MOST_WORDS; many++) {
    const word = s.words[end];
    if (!word || word.stop === ".") return many > 0 && isByCommas ? end : null;
    if (s.isWhen(end)) return null;
    const isLast = word.norm === "and" || word.norm === "&";
    isByCommas &&= word.stop === ",";
    if (isLast ? many === 0 : word.stop !== "," && !DETERMINERS.has(word.norm)) return null;
    let start = isLast ? end + 1 : end;
    while (DETERMINERS.has(s.words[start]?.norm ?? "")) start++;
    if (isVerb(start, false)) return null;
    const next = endOfThing(s, start, isVerb);
    if (next === start || hasVerb(s, next)) return null;
    if (isLast) return next;
    end = next;
  }
  return null;
}

const PREDICATE =
  /^(?:is|are|was|were|has|have|had|needs?|needed|required|requires|wants?|will|should|must|to|looks?|seems?|can|could|may|might|not|isn't|needn't|doesn't|ok|okay|fine|good)$/;

/** Whether what stands here says something of what stands before: "… is noisy", "… cleaned". */
export function hasVerb({ words }: Pick<Sentence, "words">, place: number): boolean {
  const word = words[place];
  if (word?.stop !== "") return false;
  const action = actionAt((ahead) => words[place + ahead]?.norm);
  return PREDICATE.test(word.norm) || (action?.forms.has("past") ?? false) || word.tags.has("Gerund");
}

/** The thing that ends before a place: the subject of "… needs replacing". `first`: it begins no earlier. */
export function thingBefore(s: Sentence, place: number, first: number): Thing | null {
  let start = place;
  while (start > first && isThing(s, start - 1) && (start === place || s.words[start]?.stop === "")) start--;
  if (start < place && s.words[place]?.stop === ".") return null;
  if (start === place) return null;
  // "gasket on the trap", "gasket and seal": what it is tied to, too.
  const before = s.words[start - 1];
  const isAfterArticle = before !== undefined && DETERMINERS.has(before.norm);
  const tie = isAfterArticle ? start - 2 : start - 1;
  const word = s.words[tie];
  const isTied =
    word !== undefined &&
    s.words[start]?.stop === "" &&
    s.words[tie + 1]?.stop === "" &&
    tie > first &&
    (TIES.has(word.norm) || word.norm === "and") &&
    !s.isWhen(tie);
  const whole = isTied ? thingBefore(s, tie, first) : null;
  let isNew = false;
  for (let at = start - 1; at >= first && DETERMINERS.has(s.words[at]?.norm ?? ""); at--)
    isNew ||= NEW.has(s.words[at]?.norm ?? "");
  if (whole) return { start: ofList(s, whole.start, first), end: place, isNew: whole.isNew };
  const words = s.words.slice(start, place);
  if (!words.some(({ tags, norm }) => !tags.has("Value") && /\p{L}/u.test(norm))) return null;
  return { start: Math.max(start, place - MOST_WORDS), end: place, isNew };
}

/** "trap, filter and siphon need cleaning": where a list of parts begins that goes on at a place. */
function ofList(s: Sentence, place: number, first: number): number {
  if (place <= first || s.words[place]?.stop !== "," || !isOfTrade(s.words[place - 1]?.norm ?? ""))
    return place;
  let start = place;
  while (start > first && isThing(s, start - 1) && (start === place || s.words[start]?.stop === "")) start--;
  const isClause = s.words[start]?.stop === "." || DETERMINERS.has(s.words[start - 1]?.norm ?? "");
  return isClause ? start : place;
}
