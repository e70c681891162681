import { clauseEnd, isRole, normAt, roleFrom, type Scan, verbAt, verbIn } from "./found.ts";
import { isPerson, type Thing, thingAfter } from "./thing.ts";
import { DETERMINERS, NEEDS, NEVER_THING } from "./vocabulary.ts";

/** Who is called or told, about what, and where that ends. */
export interface Told {
  readonly who: number | null;
  readonly thing: Thing | null;
  readonly last: number;
}

const FAR = 9;

/** Who is called or told from a place on, and about what. Names are passed over: people are kept by their roles only. */
export function toldFrom(scan: Scan, place: number): Told {
  let who: number | null = null;
  let last = place;
  for (let at = place; at < Math.min(scan.end, place + FAR); at++) {
    const word = normAt(scan, at);
    if (at > place && scan.words[at]?.stop !== "") break;
    if (scan.isWhen(at)) continue;
    if (word === "to" && who === null) {
      const to = roleFrom(scan, at + 1);
      return to === null ? { who, thing: null, last } : { who: to, thing: null, last: to + 1 };
    }
    if (/^(?:about|regarding|re|for)$/.test(word)) {
      const isDoing = verbAt(scan, at + 1)?.forms.has("gerund");
      const thing = thingAfter(scan, isDoing ? at + 2 : at + 1, verbIn(scan));
      return { who, thing, last: thing?.end ?? last };
    }
    if (NEVER_THING.has(word) && !/^(?:back|again|him|her|them|know)$/.test(word)) break;
    // Behind whoever is told what he is told begins: "tell Mrs Hall the drain freezes".
    const isNext =
      DETERMINERS.has(word) &&
      (who !== null || (!DETERMINERS.has(normAt(scan, at - 1)) && roleFrom(scan, at) === null));
    const isElsewhere = /^(?:in|on|at|from|of)$/.test(word) || isNext;
    const isVerb = verbAt(scan, at) !== null && !DETERMINERS.has(normAt(scan, at - 1));
    if (at > place && (isElsewhere || isVerb)) break;
    if (who === null && isRole(scan, at)) who = at;
    last = at + 1;
  }
  const told = tellingAt(scan, last, last > place);
  if (who === null && told.thing === null && FIRMS.test(normAt(scan, last - 1)) && last > place)
    return { who, last, thing: { start: last - 1, end: last, isNew: false } };
  return { who, last, ...told };
}

/** Who has no role here, and no name either. */
const FIRMS = /^(?:makers?|manufacturers?|factory|helpline|neighbours?)$/;

const MOST_TOLD = 12;

/** What somebody is told, in the words of its clause: "cut it back", "the drain freezes". Nothing where a name is in it. */
function tellingAt(
  scan: Scan,
  place: number,
  isAnyone: boolean,
): Pick<Told, "thing"> & Partial<Pick<Told, "last">> {
  const { words } = scan;
  if (!isAnyone || words[place]?.stop !== "" || normAt(scan, place - 1) === "whether") return { thing: null };
  const isClause = isSaid(scan, place);
  if (!isClause && !DETERMINERS.has(normAt(scan, place))) return { thing: null };
  const start = isClause && normAt(scan, place) !== "not" ? place + 1 : place;
  const most = isClause ? toldTo(scan, place) : clauseEnd(scan, place + 1);
  let end = start;
  const isEnd = (at: number) =>
    scan.isWhen(at) ||
    /^(?:if|when|before|until|unless|because|but|so)$/.test(normAt(scan, at)) ||
    (normAt(scan, at) === "and" && /^(?:he|she|they|i|we)$/.test(normAt(scan, at + 1)));
  while (end < most && !isEnd(end)) end++;
  while (end > start && /^(?:on|by|in|at|the|and|or|but|for)$/.test(normAt(scan, end - 1))) end--;
  if (end - start < 2 || end - start > MOST_TOLD) return { thing: null };
  for (let at = start; at < end; at++) {
    if (isPerson(scan, at)) return { thing: null };
    // What asks for something itself is read for that.
    const isNoun = verbAt(scan, at)?.isCommon && DETERMINERS.has(normAt(scan, at - 1));
    if (!isClause && ((verbAt(scan, at) !== null && !isNoun) || NEEDS.has(normAt(scan, at))))
      return { thing: null };
  }
  return { thing: { start, end, isNew: false }, ...(isClause ? {} : { last: end }) };
}

/** Where that ends which somebody is told to do, or that is so: it is not asked of us. The place itself where he is told nothing. */
export function toldTo(scan: Scan, place: number): number {
  const { words, end } = scan;
  let at = place;
  while (at < end && at < place + 3 && words[at]?.stop === "" && !isSaid(scan, at)) {
    if (verbAt(scan, at) !== null || normAt(scan, at) === "and") return place;
    at++;
  }
  if (at >= end || !isSaid(scan, at)) return place;
  const isThat = normAt(scan, at) === "that";
  const last = clauseEnd(scan, at + 1);
  const first = at;
  for (at++; at < last; at++) {
    const next = normAt(scan, at) === "and" ? verbAt(scan, at + 1) : null;
    if (next?.action === "return" || (isThat && next?.forms.has("base"))) return at;
    const act = verbAt(scan, at);
    // "… to have the radiators bled" is what he is told.
    const isHad = words.slice(first, at).some(({ norm }) => /^(?:have|get|be)$/.test(norm));
    if (act?.forms.has("past") && !act.isCommon && !isHad) return at;
  }
  return last;
}

function isSaid(scan: Scan, place: number): boolean {
  return /^(?:to|that|not)$/.test(normAt(scan, place));
}
