import {
  clauseEnd,
  type Found,
  isRole,
  normAt,
  pastArticles,
  roleFrom,
  type Scan,
  toDo,
  verbAt,
  verbIn,
} from "./found.ts";
import { ledAt } from "./governed.ts";
import { meantBy } from "./meant.ts";
import { nameAfter, type Thing } from "./thing.ts";
import { BOUND, CONJUNCTIONS, NEEDS, NEGATIVE, OTHERS } from "./vocabulary.ts";

/** Where that ends which others have done, or nobody: "they get the boiler serviced", "no need to have it swept"; null: neither. */
export function otherHaveDone(scan: Scan, place: number): number | null {
  if (!/^(?:get|gets|got|getting|have|has|had|having)$/.test(normAt(scan, place))) return null;
  let by = place - 1;
  while (/^(?:has|have|had|is|are|also|always|usually)$/.test(normAt(scan, by))) by--;
  const whose = normAt(scan, by);
  const isOthers =
    isRole(scan, by) || (OTHERS.has(whose) && whose !== "it") || /^(?:he|she|they)'(?:d|ve)$/.test(whose);
  const isNot = ledAt(scan, place, "base").isDenied;
  const thing = isOthers || isNot ? nameAfter(scan, place + 1, verbIn(scan)) : null;
  const isDone = thing && scan.words[thing.end]?.stop === "" && verbAt(scan, thing.end)?.forms.has("past");
  return isDone ? clauseEnd(scan, thing.end) : null;
}

/** "have the pump replaced", "get the flue swept", "needs both valves changing": what is to be done to a thing named first. */
export function haveDoneAt(scan: Scan, place: number): Found | null {
  const word = normAt(scan, place);
  const isNeed = NEEDS.has(word);
  if (!isNeed && !(/^(?:have|get)$/.test(word) && isOrdered(scan, place))) return null;
  const after = pastArticles(scan, place + 1);
  const isIt = /^(?:it|them|one)$/.test(normAt(scan, after));
  const thing: Thing | null = isIt ? meantBy(scan, place) : nameAfter(scan, place + 1, verbIn(scan));
  const verb = isIt ? after + 1 : (thing?.end ?? place);
  const act = verb > place && scan.words[verb]?.stop === "" ? verbAt(scan, verb) : null;
  if (!act || !thing) return null;
  const isDoing = act.forms.has("gerund") && isNeed;
  if (!isDoing && !act.forms.has("past")) return null;
  const before = normAt(scan, place - 1);
  if (isNeed && (NEGATIVE.has(before) || (OTHERS.has(before) && before !== "it"))) return null;
  const end = verb + act.length;
  const by = normAt(scan, end) === "by" ? roleFrom(scan, end + 1) : null;
  const who = by ?? (isNeed ? null : ledAt(scan, place, "base").who);
  return toDo(act.action, verb, end, {
    thing,
    who,
    first: place,
    last: by === null ? pastPlace(scan, end) : by + 1,
  });
}

/** "… sent to the depot". */
function pastPlace(scan: Scan, place: number): number {
  const isTied = scan.words[place]?.stop === "" && /^(?:to|from|at|in|on|with)$/.test(normAt(scan, place));
  return (isTied && !scan.isWhen(place) && nameAfter(scan, place + 1, verbIn(scan))?.end) || place;
}

/** Whether "have" or "get" is an order here: it begins a clause, or stands behind "to", "will", "please". */
export function isOrdered(scan: Scan, place: number): boolean {
  const before = normAt(scan, place - 1);
  if (scan.words[place]?.stop !== "" || CONJUNCTIONS.has(before) || scan.isWhen(place - 1)) return true;
  if (before === "to")
    return !/^(?:had|used|tried|want|wants|wanted|like|asked|told)$/.test(normAt(scan, place - 2));
  return before === "please" || before === "not" || BOUND.has(before);
}
