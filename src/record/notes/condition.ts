import { actionAt } from "./actions.ts";
import { beginsVerb } from "./noun-or-verb.ts";
import { partedAt } from "./parted.ts";
import { roleOf } from "./roles.ts";
import { isPerson, isThing, type Sentence, type Stretch } from "./thing.ts";
import { CONJUNCTIONS, DETERMINERS, NEEDS } from "./vocabulary.ts";

/**
 * Clauses that say what has to be so first: "when the radiators are bled", "before we light it". They are kept in their own
 * words as the time of a task, without a day. Only of what is to come: "when I came" is none. Nothing with a name in it.
 */
export function conditionsOf(s: Sentence): Stretch[] {
  const found: Stretch[] = [];
  for (let at = 0; at < s.words.length; at++) {
    const start = found.at(-1);
    if (start && at < start.end) continue;
    const end = conditionEnd(s, at);
    if (end !== null) found.push({ start: at, end });
  }
  return found;
}

/** How many words a subject has at most. */
const FAR = 6;

/** After these "when" asks for a time: "ask when it is in". */
const ASKING = /^(?:ask|asked|know|sure|see|say|says|said|out|wonder|tell|told|remember|about|of|on|and)$/;

function conditionEnd(s: Sentence, place: number): number | null {
  if (s.isWhen(place)) return null;
  const [word, before] = [normOf(s, place), normOf(s, place - 1)];
  const isLead = s.words[place]?.stop !== "";
  if (word === "as" && !(normOf(s, place + 1) === "soon" && normOf(s, place + 2) === "as")) return null;
  if (!/^(?:when|once|after|before|as)$/.test(word)) return null;
  if (word === "when" && !isLead && (ASKING.test(before) || isAsked(s, place))) return null;
  const from = word === "as" ? place + 3 : place + 1;
  const said = predicateEnd(s, from, /^(?:before|after)$/.test(word));
  if (said === null) return null;
  const end = clauseOrNext(s, said);
  for (let at = from; at < end; at++) if (isNamed(s, at)) return null;
  return end;
}

const IS = /^(?:is|are|has|have|gets?)$/;
const IS_SHORT = /^(?:it's|they're|they've|we've|i've|he's|she's|that's)$/;
const BETWEEN =
  /^(?:been|being|all|both|fully|finally|properly|next|back|not|done|completely|also|had|got|going)$/;
const PARTICLE = /^(?:in|out|off|down|up|over|back|on|through|away)$/;

/** Where the clause that begins at a place has said what has to be so; null where it says nothing that is to come. */
function predicateEnd(s: Sentence, from: number, mayBeDoing: boolean): number | null {
  const { words } = s;
  if (words[from]?.stop !== "" || s.isWhen(from)) return null;
  // "before coming", "after flushing the system".
  if (mayBeDoing && words[from]?.tags.has("Gerund")) return withObject(s, from + 1);
  for (let at = from; at < Math.min(from + FAR, words.length); at++) {
    const word = words[at];
    if (word?.stop !== "" || s.isWhen(at) || CONJUNCTIONS.has(word.norm) || NEEDS.has(word.norm)) return null;
    const isShort = IS_SHORT.test(word.norm) && at === from;
    if (isShort || (IS.test(word.norm) && at > from)) {
      let end = at + 1;
      while (BETWEEN.test(normOf(s, end)) && words[end]?.stop === "") end++;
      const what = words[end];
      if (what?.stop !== "" || s.isWhen(end)) return normOf(s, end - 1) === word.norm ? null : end;
      const isPerfect = /^(?:has|have)$|'ve$/.test(word.norm) && normOf(s, end - 1) !== "been";
      return isPerfect ? withObject(s, end + 1) : pastParticle(s, end + 1);
    }
    if (at > from && isPresent(s, at)) return withObject(s, at + 1);
    if (word.tags.has("PastTense") && !DETERMINERS.has(normOf(s, at - 1)) && !isThing(s, at)) return null;
  }
  return null;
}

/** "… comes", "we light …": a verb of the present, with the subject before it. */
function isPresent(s: Sentence, place: number): boolean {
  const word = s.words[place];
  if (!word || DETERMINERS.has(normOf(s, place - 1))) return false;
  if (/^(?:i|we|you|they|he|she|it)$/.test(normOf(s, place - 1)))
    return !word.tags.has("PastTense") || word.tags.has("PresentTense");
  if (/^(?:ends|starts|begins|stops|opens|closes|fires|runs|trips|leaks|drips)$/.test(word.norm)) return true;
  return word.norm.endsWith("s") && word.tags.has("PresentTense") && !word.tags.has("Noun");
}

function pastParticle(s: Sentence, place: number): number {
  const word = s.words[place];
  return word?.stop === "" && PARTICLE.test(word.norm) ? place + 1 : place;
}

/** Past what a verb is done to: "we light the old one". */
function withObject(s: Sentence, from: number): number {
  const start = pastParticle(s, from);
  let end = start;
  if (s.words[end]?.stop !== "") return end;
  if (/^(?:it|them|us|him|her)$/.test(normOf(s, end))) return pastParticle(s, end + 1);
  if (!DETERMINERS.has(normOf(s, end))) return end;
  while (DETERMINERS.has(normOf(s, end))) end++;
  while (
    s.words[end]?.stop === "" &&
    (normOf(s, end) === "one" || isThing(s, end)) &&
    !beginsVerb(s, end, true)
  )
    end++;
  // "… have moved out the sensor can be changed": that is what comes after.
  const next = s.words[end];
  if (next?.stop === "" && (IS.test(next.norm) || NEEDS.has(next.norm) || WILL.test(next.norm))) return start;
  return pastParticle(s, end);
}

const WILL = /^(?:can|will|must|should)$/;

/** The end of the clause where nothing else begins in it, else the place itself. */
function clauseOrNext(s: Sentence, from: number): number {
  const { words } = s;
  for (let at = from; at < words.length; at++) {
    const word = words[at];
    if (word?.stop !== "" || CONJUNCTIONS.has(word.norm) || s.isWhen(at)) return at;
    const isSaid =
      IS.test(word.norm) || NEEDS.has(word.norm) || /^(?:will|must|should|to|if)$/.test(word.norm);
    if (isSaid || beginsVerb(s, at, false) || partedAt(s, at) !== null) return from;
    if (/^(?:i|we|you|he|she|it|they)$/.test(word.norm)) return from;
  }
  return words.length;
}

/** "ask the supplier when it is in". */
function isAsked(s: Sentence, place: number): boolean {
  let at = place - 1;
  while (roleOf(normOf(s, at)) !== null || DETERMINERS.has(normOf(s, at))) at--;
  return at < place - 1 && /^(?:ask|asked|tell|told|remind)$/.test(normOf(s, at));
}

function isNamed(s: Sentence, place: number): boolean {
  return isPerson(s, place) && roleOf(normOf(s, place)) === null && !actionAt(() => normOf(s, place));
}

function normOf({ words }: Sentence, place: number): string {
  return words[place]?.norm ?? "";
}
