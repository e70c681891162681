import type { Role } from "../../visit/task.ts";
import { type ActionWord, actionAt, PARTICLES } from "./actions.ts";
import { quotedAfter } from "./aside.ts";
import { isNearDue } from "./dues.ts";
import {
  clauseEnd,
  type Found,
  isRole,
  normAt,
  pastArticles,
  type Reading,
  roleFrom,
  type Scan,
  toDo,
  verbAt,
  verbIn,
} from "./found.ts";
import { type Governed, governed } from "./governed.ts";
import { isLeftOut, isNone, meantBy, subjectBefore } from "./meant.ts";
import { isVisit } from "./needs.ts";
import { roleOf } from "./roles.ts";
import { isPerson, nameAfter, type Thing, thingAfter } from "./thing.ts";
import { toldFrom } from "./told.ts";
import { DETERMINERS, PAST_TIME } from "./vocabulary.ts";

/** What goes on from before: a "not", somebody else's deed. */
export interface Carried {
  readonly denied: boolean;
  readonly others: boolean;
}

/** "return the faulty board": somebody is to have it back; the visitor does not come back. Not of a dial that goes "to zero". */
function isGivenBack(scan: Scan, place: number, act: ActionWord): boolean {
  if (act.base !== "return" || !DETERMINERS.has(normAt(scan, place + act.length))) return false;
  const thing = nameAfter(scan, place + act.length, verbIn(scan));
  return thing !== null && (normAt(scan, thing.end) !== "to" || roleFrom(scan, thing.end + 1) !== null);
}

/** What the verb at a place asks for, or says was done. */
export function verbTask(
  scan: Scan,
  place: number,
  verb: ActionWord,
  { denied, others }: Carried,
  particle: number | null = null,
): Reading {
  const act: ActionWord = isGivenBack(scan, place, verb)
    ? { ...verb, action: "other", isCommon: false }
    : verb;
  if (normAt(scan, place) === "let" && ![2, 3, 4].some((ahead) => normAt(scan, place + ahead) === "know"))
    return null;
  // "remind me to order a fan" asks for the fan; "phone us" is for others to do.
  if (isToPeople(act) && /^(?:me|us|myself)$/.test(normAt(scan, place + act.length))) return null;
  const before = scan.found.findLast(({ first }) => first >= scan.start);
  const by = governed(scan, place, act, {
    start: scan.start,
    taken: scan.taken,
    before: before ? (before.done ? "done" : "to-do") : null,
  });
  if (by.isDenied) return "denied";
  if (by.meant === "nothing") return act.forms.has("past") && isRole(scan, by.from - 1) ? "others" : null;
  // "the customer will call us", "owner to come back": that is theirs, and no task of ours.
  const doer = by.who === null || by.isPassive ? null : roleOf(normAt(scan, by.who));
  if (
    by.meant === "to-do" &&
    doer !== null &&
    OUTSIDE.has(doer) &&
    (isToPeople(act) || act.action === "return")
  )
    return "others";
  const tie = normAt(scan, by.from - 1);
  // "the caretaker is to bleed it and ring us", "… and reset the pump": the same person's.
  const same =
    tie === "and" && !by.isPassive && by.meant === "to-do" ? doerOf(scan.found.at(-1), scan.start) : null;
  if (same !== null && act.action === "return") return "others";
  // "no need to come back or order", "the caretaker cleaned it and reset the pump".
  if (denied && /^(?:and|or|nor)$/.test(tie)) return "denied";
  const isDone = by.meant === "done";
  if (others && isDone && tie === "and") return "others";
  if (isDone && (act.action === "return" || isOld(scan, place))) return null;

  // "sealed unit" is what it is like: to be a deed it takes an article.
  if (isDone && /^seal/.test(act.base) && !by.isPassive && scan.words[place + act.length]?.stop === "")
    if (!DETERMINERS.has(normAt(scan, place + act.length)) && normAt(scan, place + act.length) !== "it")
      return null;

  const of = objectOf(scan, place, act, by);
  if (!of) return null;
  const { thing, isIt } = of;
  if (thing && act.action === "other" && isVisit(scan, thing))
    return toDo("return", thing.start, thing.end, { who: by.who, first: place, last: of.last });
  const after = place + act.length;
  if (act.action === "other" && GIVES.test(act.base) && (isIt || !thing)) return null;
  if (!thing && !isIt && !isEnough(scan, act, by, after)) return null;
  // "set the timer back on Sunday".
  const behind = particle ?? (isWithParticle(scan, place, act, of.last) ? of.last : null);
  const { who, last } = tailOf(scan, Math.max(of.last, (behind ?? 0) + 1), act);
  return toDo(act.action, place, after, {
    thing,
    who: of.who ?? by.who ?? who ?? (isToPeople(act) ? null : same),
    done: isDone,
    first: Math.min(by.isPassive && thing ? thing.start : by.from, place),
    last,
  });
}

function isWithParticle(scan: Scan, place: number, { length }: ActionWord, last: number): boolean {
  const [verb, particle] = [normAt(scan, place), normAt(scan, last)];
  if (length !== 1 || last <= place + 1 || scan.words[last]?.stop !== "" || !PARTICLES.has(particle))
    return false;
  return actionAt((ahead) => [verb, particle][ahead])?.length === 2;
}

/** Who does the last task of this sentence, where he was named before it. */
function doerOf(last: Found | undefined, start: number): number | null {
  if (!last || last.done || last.who === null || last.first < start || last.who >= last.start) return null;
  return last.action === "call" || last.action === "tell" || last.action === "quote" ? null : last.who;
}

const OUTSIDE: ReadonlySet<Role> = new Set([
  "customer",
  "owner",
  "tenant",
  "caretaker",
  "manager",
  "supplier",
  "authority",
]);

/** Verbs that hand something to somebody. */
const GIVES = /^(?:send|hand over|return)$/;

/** Whether a verb says enough without its thing. */
function isEnough(scan: Scan, act: ActionWord, by: Governed, after: number): boolean {
  if (isToPeople(act) || act.action === "return") return true;
  if (by.isPassive) return true;
  if (act.action === "other" || by.meant === "done") return false;
  return !act.isCommon || normAt(scan, after) === "again";
}

function isToPeople({ action }: ActionWord): boolean {
  return action === "call" || action === "tell";
}

interface Done {
  readonly thing: Thing | null;
  readonly who: number | null;
  readonly last: number;
  /** Whether "it" stands for it, though nobody knows for what. */
  readonly isIt: boolean;
}

/** What a verb is done to; null where it is done to nothing: "nothing replaced". */
function objectOf(scan: Scan, place: number, act: ActionWord, by: Governed): Done | null {
  const after = place + act.length;
  const bare = { thing: null, who: null, last: after, isIt: false };
  if (act.action === "quote") {
    if (act.base.endsWith(" for")) {
      const thing = quotedAfter(scan, after);
      return { ...bare, thing, last: thing?.end ?? after };
    }
    const who = roleFrom(scan, after);
    const isHim = /^(?:him|her|them)$/.test(normAt(scan, after));
    const tie = who !== null ? who + 1 : isHim ? after + 1 : after;
    if (/^(?:for|on)$/.test(normAt(scan, tie)) && !scan.isWhen(tie)) {
      const thing = quotedAfter(scan, tie + 1);
      return { ...bare, thing, who, last: thing?.end ?? tie };
    }
  }
  if (isToPeople(act) || isAbout(scan, act, after)) {
    const told = toldFrom(scan, after);
    // It is the fan that is chased, where nobody is.
    const chased = act.base.startsWith("chase") && told.who === null && told.thing === null;
    if (chased) {
      const thing = thingAfter(scan, after, verbIn(scan));
      return thing && { ...bare, thing, last: thing.end };
    }
    const thing = told.thing ?? (by.isPassive && !isToPeople(act) ? subjectOf(scan, by) : null);
    return { ...bare, ...told, thing };
  }
  if (act.action === "return") return bare;
  if (by.isPassive) {
    const thing = subjectOf(scan, by);
    if (thing && isNone(scan, thing)) return null;
    const isByOthers =
      by.meant === "done" && normAt(scan, after) === "by" && roleFrom(scan, after + 1) !== null;
    return isByOthers ? null : { ...bare, thing };
  }
  // "send the tenant a copy".
  const given = GIVES.test(act.base) ? roleFrom(scan, after) : null;
  const gift = given === null ? null : thingAfter(scan, given + 1, verbIn(scan));
  if (gift) return { ...bare, thing: gift, who: given, last: gift.end };
  const thing = thingAfter(scan, after, verbIn(scan));
  if (thing) return { ...bare, thing, last: thing.end };
  const it = pastArticles(scan, after);
  // "bring some", "reroute that into the stack".
  const isSome = it > after && /^(?:some|another|both|that|these|those)$/.test(normAt(scan, it - 1));
  if (isSome && (scan.words[it]?.stop !== "" || /^(?:into|to|before|for)$/.test(normAt(scan, it))))
    return { ...bare, thing: meantBy(scan, place), last: it, isIt: true };
  if (/^(?:it|them|one|ones)$/.test(normAt(scan, it))) {
    const isParticle = /^(?:out|off|up|down|through|over|back)$/.test(normAt(scan, it + 1));
    return { ...bare, thing: meantBy(scan, place), last: isParticle ? it + 2 : it + 1, isIt: true };
  }
  // "adjust to nine point two" says of nothing that it is adjusted.
  if (normAt(scan, after) === "to") return null;
  return { ...bare, thing: leftOut(scan, place, after, by) };
}

/** "quote for a filter", "quote customer", "test for leaks". */
function isAbout(scan: Scan, { action }: ActionWord, after: number): boolean {
  if ((action !== "quote" && action !== "check") || scan.isWhen(after)) return false;
  return /^(?:for|on)$/.test(normAt(scan, after)) || isRole(scan, after);
}

/** "gasket replaced", "it should be replaced". */
function subjectOf(scan: Scan, { from, isShared }: Governed): Thing | null {
  const thing = subjectBefore(scan, from, Math.max(scan.start, scan.taken));
  return thing ?? (isShared || isLeftOut(scan, from) ? meantBy(scan, from) : null);
}

/** The thing of a verb that has none beside it. */
function leftOut(scan: Scan, place: number, after: number, by: Governed): Thing | null {
  const { words, found, start, end } = scan;
  // "clean and refit the burner".
  const next = normAt(scan, after) === "and" ? verbAt(scan, after + 1) : null;
  if (next) return thingAfter(scan, after + 1 + next.length, verbIn(scan));
  const isBare =
    after >= end || words[after]?.stop !== "" || isNearDue(scan, after) || normAt(scan, after) === "again";
  if (by.meant === "to-do") return isBare ? meantBy(scan, place) : null;
  // "fan removed and cleaned", "siphon cracked, replaced".
  if (normAt(scan, by.from - 1) === "and")
    return found.findLast(({ first, done }) => first >= start && done)?.thing ?? null;
  return isBare && words[place]?.stop === "," ? meantBy(scan, place) : null;
}

/** Who it is done by or with, and where all that belongs to it ends: "… from the stores", "… with the caretaker". */
function tailOf(scan: Scan, from: number, act: ActionWord): { who: number | null; last: number } {
  let who: number | null = null;
  let last = from;
  for (let more = 0; more < 3; more++) {
    const tie = scan.words[last];
    if (tie?.stop !== "" || scan.isWhen(last) || !/^(?:by|with|from|for|to|into|at|in|on)$/.test(tie.norm))
      break;
    const role = roleFrom(scan, last + 1);
    if (role !== null) {
      const isTo = tie.norm === "to" && GIVES.test(act.base);
      if ((tie.norm === "by" || tie.norm === "with" || isTo) && act.action !== "return") who ??= role;
      last = role + 1;
      continue;
    }
    // A name is passed over.
    let name = last + 1;
    while (isPerson(scan, name) && scan.words[name]?.stop === "") name++;
    if (tie.norm === "to" && GIVES.test(act.base) && name > last + 1) {
      last = name;
      continue;
    }
    const thing = tie.norm === "to" || tie.norm === "by" ? null : nameAfter(scan, last + 1, verbIn(scan));
    if (!thing) break;
    last = thing.end;
  }
  return { who, last };
}

/** What was done at another time or by others is not of this visit. */
function isOld(scan: Scan, place: number): boolean {
  const { words, text, start } = scan;
  let from = place;
  while (from > start && words[from]?.stop === "") from--;
  const to = clauseEnd(scan, place + 1);
  // Not by the time of what is to come: "dosed it and it wants testing in a year".
  const said = words
    .slice(from, to)
    .map((word, at) => (scan.isWhen(from + at) ? "-" : text.slice(word.from, word.to)));
  return PAST_TIME.test(said.join(" "));
}
