import type { TaskAction } from "../../visit/task.ts";
import { PARTICLES } from "./actions.ts";
import { quoteAsked } from "./aside.ts";
import { isNearDue } from "./dues.ts";
import {
  type Found,
  isRole,
  normAt,
  pastArticles,
  type Reading,
  type Scan,
  toDo,
  verbAt,
  verbIn,
} from "./found.ts";
import { isOrdered } from "./have-done.ts";
import { isLeftOut, isNone, meantBy, subjectBefore } from "./meant.ts";
import { type Thing, thingAfter, thingBefore } from "./thing.ts";
import { isOfTrade } from "./trade-words.ts";
import { DETERMINERS, NEEDS, NEGATIVE, NEW, NOMINAL, NOT_NEEDED, OTHERS, POSSIBLE } from "./vocabulary.ts";

/** What is needed, from the word that says so on; null where nothing is. What "needs replacing" is found by its verb. */
export function needAt(scan: Scan, place: number): Reading {
  const [word, next, before] = [normAt(scan, place), normAt(scan, place + 1), normAt(scan, place - 1)];
  if (word === "do" && next === "with" && before === "could")
    return nominalAt(scan, place, place + 2, place - 1) ?? doingAt(scan, place) ?? needed(scan, place + 1);
  if (word === "due" && /^(?:for|a|an)$/.test(next)) {
    let of = place;
    while (/^(?:is|are|also|now|about|well|over)$/.test(normAt(scan, of - 1)) && scan.words[of]?.stop === "")
      of--;
    return nominalAt(scan, place, place + 2, of);
  }
  if (NEEDS.has(word)) return needsAt(scan, place);
  return /^(?:needed|required)$/.test(word) ? isNeeded(scan, place) : null;
}

/** "pump could do with replacing". */
function doingAt(scan: Scan, place: number): Found | null {
  const act = verbAt(scan, place + 2);
  const thing = act?.forms.has("gerund")
    ? subjectBefore(scan, place - 1, Math.max(scan.start, scan.taken))
    : null;
  const end = place + 2 + (act?.length ?? 0);
  return act && thing && toDo(act.action, place + 2, end, { thing, first: thing.start, last: end });
}

/** "needs a new fan", "trap needs a clean". */
function needsAt(scan: Scan, place: number): Reading {
  const [word, next, before] = [normAt(scan, place), normAt(scan, place + 1), normAt(scan, place - 1)];
  if (NEGATIVE.has(before) || /^(?:no|nothing|none)$/.test(next)) return "denied";
  if (POSSIBLE.has(before) || POSSIBLE.has(normAt(scan, place - 2))) return null;
  if (OTHERS.has(before) && before !== "it") return null;
  if (isRole(scan, place - 1)) return quoteAsked(scan, place);
  if (/^wants?$/.test(word) && place === scan.start) return null;
  return nominalAt(scan, place, place + 1) ?? needed(scan, place);
}

/** "a clean", "a good service", "chemical clean": what is to be done, as a noun. */
function nominalAt(scan: Scan, place: number, from: number, subject = place): Found | null {
  let at = from;
  while (at < from + 4 && !(normAt(scan, at) in NOMINAL) && isBefore(scan, at)) at++;
  const action = nominal(scan, at, at > from || at > place + 1);
  if (!action) return null;
  const first = Math.max(scan.start, scan.taken);
  const thing =
    subjectBefore(scan, subject, first) ?? (isLeftOut(scan, subject) ? meantBy(scan, place) : null);
  // "cleaning out".
  const isOut = PARTICLES.has(normAt(scan, at + 1)) && scan.words[at + 1]?.stop === "";
  const last = isOut ? at + 2 : at + 1;
  return thing && toDo(action, at, at + 1, { thing, first: Math.min(thing.start, place), last });
}

/** What may stand between "needs" and such a noun. */
function isBefore(scan: Scan, place: number): boolean {
  const word = scan.words[place];
  if (word?.stop !== "" || scan.isWhen(place)) return false;
  return (
    DETERMINERS.has(word.norm) ||
    word.tags.has("Adjective") ||
    /^(?:good|full|proper|quick|thorough|chemical)$/.test(word.norm)
  );
}

function nominal(scan: Scan, place: number, isLed: boolean): TaskAction | null {
  const word = normAt(scan, place);
  if (!Object.hasOwn(NOMINAL, word) || !(isLed || /(?:ment|ing)$/.test(word))) return null;
  const next = scan.words[place + 1];
  const isAlone = next?.stop !== "" || scan.isWhen(place + 1) || !next.tags.has("Noun");
  return isAlone ? NOMINAL[word as keyof typeof NOMINAL] : null;
}

/** What follows "needs", "could do with". */
function needed(scan: Scan, place: number): Found | null {
  const isMany = scan.words[place + 1]?.tags.has("Value") && DETERMINERS.has(normAt(scan, place + 2));
  const thing = thingAfter(scan, isMany ? place + 2 : place + 1, verbIn(scan));
  if (!thing || NOT_NEEDED.has(normAt(scan, thing.end - 1)) || NOT_NEEDED.has(normAt(scan, thing.start)))
    return null;
  const end = thing.isNew ? thing.start : place + 1;
  return toDo(thing.isNew ? "replace" : "other", place, end, { thing, last: thing.end });
}

/** "new gasket required". */
function isNeeded(scan: Scan, place: number): Found | null {
  const [before, next] = [normAt(scan, place - 1), normAt(scan, place + 1)];
  if (/^(?:if|as|when|where|is|not|was|to)$/.test(before) || next === "to") return null;
  const thing = thingBefore(scan, place, Math.max(scan.start, scan.taken));
  if (!thing || isNone(scan, thing)) return null;
  const isNew = thing.isNew || NEW.has(normAt(scan, thing.start - 1));
  return toDo(isNew ? "replace" : "other", place, place + 1, { thing, first: thing.start });
}

/** "get another gasket": to be ordered, where a new part is meant. */
export function getAt(scan: Scan, place: number): Found | null {
  if (normAt(scan, place) !== "get" || !isOrdered(scan, place)) return null;
  const thing = thingAfter(scan, place + 1, verbIn(scan));
  if (!thing?.isNew || !scan.words.slice(thing.start, thing.end).some(({ norm }) => isOfTrade(norm)))
    return null;
  return toDo("order", place, place + 1, { thing, last: thing.end });
}

const VISIT =
  /^(?:(?:return|follow[ -]?up|second|repeat|further) (?:visit|appointment)|revisit|comeback|follow[ -]?up|next (?:visit|appointment|call))\b/i;

/** "return visit needed", "follow up visit in two weeks", "revisit on Friday". */
export function visitAt(scan: Scan, place: number): Reading {
  const { words, text, start, end, isWhen } = scan;
  const from = words[place]?.from ?? 0;
  const [match] = VISIT.exec(text.slice(from, words[end - 1]?.to)) ?? [];
  if (match === undefined) return null;
  let after = place;
  while (after < end && (words[after]?.from ?? 0) < from + match.length) after++;
  let lead = place - 1;
  while (
    lead >= start &&
    (DETERMINERS.has(normAt(scan, lead)) || /^(?:for|needs?)$/.test(normAt(scan, lead)))
  ) {
    if (NEGATIVE.has(normAt(scan, lead - 1))) return "denied";
    lead--;
  }
  if (NEGATIVE.has(normAt(scan, place - 1))) return "denied";
  const isWished =
    /^(?:needs?|book|arrange|schedule|for|booked|arranged)$/.test(normAt(scan, lead + 1)) ||
    /^(?:book|arrange|schedule|booked|arranged)$/.test(normAt(scan, lead));
  const isSaid = /^(?:needed|required|due)$/.test(normAt(scan, after));
  if (isSaid) after++;
  const isNext = normAt(scan, place) === "next";
  if (isNext) while (/^(?:is|due|booked|for|on)$/.test(normAt(scan, after)) && !isWhen(after)) after++;
  const isDue = isNext
    ? isWhen(after)
    : isSaid || isWhen(after) || /^(?:on|in|by|to)$/.test(normAt(scan, after));
  return isWished || isDue ? toDo("return", place, after) : null;
}

/** Whether a thing is a visit: "book a return visit". */
export function isVisit(scan: Scan, { start, end }: Thing): boolean {
  const words = scan.words.slice(start, end).map(({ norm }) => norm);
  return /^(?:(?:return|follow up|follow-up|second|repeat|further) )?(?:visit|revisit|appointment)$/.test(
    words.join(" "),
  );
}

/** "see you again in six months", "I'll try again tomorrow". */
export function seeAt(scan: Scan, place: number): Found | null {
  const isTry = normAt(scan, place) === "try" && normAt(scan, place + 1) === "again";
  const isSee = normAt(scan, place) === "see" && /^(?:you|them|him|her)$/.test(normAt(scan, place + 1));
  if (!isTry && !isSee) return null;
  const before = normAt(scan, place - 1);
  const isFree = scan.words[place]?.stop !== "" || /^(?:and|will|we'll|i'll|to|then)$/.test(before);
  const end = normAt(scan, place + 2) === "again" ? place + 3 : place + 2;
  return isFree && scan.isWhen(end) ? toDo("return", place, end) : null;
}

/** "didn't have time for the heat exchanger, do it next time": what was left is to be done. */
export function doItAt(scan: Scan, place: number): Found | null {
  if (normAt(scan, place) !== "do" || !/^(?:it|them|that)$/.test(normAt(scan, place + 1))) return null;
  const before = normAt(scan, place - 1);
  const isFree = scan.words[place]?.stop !== "" || /^(?:and|will|we'll|i'll|then|so)$/.test(before);
  if (!isFree || !isNearDue(scan, place + 2)) return null;
  const thing = meantBy(scan, place);
  return thing && toDo("other", place, place + 1, { thing, last: place + 2 });
}

/** "back on Monday", "back here on the eighth". */
export function backAt(scan: Scan, place: number): Found | null {
  if (normAt(scan, place) !== "back") return null;
  const end = /^(?:here|there)$/.test(normAt(scan, place + 1)) ? place + 2 : place + 1;
  const isFree =
    scan.words[place]?.stop !== "" ||
    /^(?:and|then|be)$/.test(normAt(scan, place - 1)) ||
    place - 1 < scan.taken;
  return isFree && scan.isWhen(pastArticles(scan, end)) ? toDo("return", place, end) : null;
}
