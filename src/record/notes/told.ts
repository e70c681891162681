import { clauseEnd, isRole, normAt, roleFrom, type Scan, verbAt, verbIn } from "./found.ts";
import { type Thing, thingAfter } from "./thing.ts";
import { DETERMINERS, NEVER_THING } from "./vocabulary.ts";

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
    const isElsewhere = /^(?:in|on|at|from|of)$/.test(word) || (who !== null && DETERMINERS.has(word));
    if (at > place && (isElsewhere || verbAt(scan, at) !== null)) break;
    if (who === null && isRole(scan, at)) who = at;
    last = at + 1;
  }
  return { who, thing: null, last };
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
  const last = clauseEnd(scan, at + 1);
  for (at++; at < last; at++) {
    if (normAt(scan, at) === "and" && verbAt(scan, at + 1)?.action === "return") return at;
    const act = verbAt(scan, at);
    if (act?.forms.has("past") && !act.isCommon) return at;
  }
  return last;
}

function isSaid(scan: Scan, place: number): boolean {
  return /^(?:to|that|not)$/.test(normAt(scan, place));
}
