import { clauseEnd, type Found, isRole, normAt, roleFrom, type Scan, toDo, verbAt, verbIn } from "./found.ts";
import { haveDoneAt, otherHaveDone } from "./have-done.ts";
import { meantBy } from "./meant.ts";
import { isPerson, type Thing, thingAfter } from "./thing.ts";
import { toldFrom } from "./told.ts";
import { IF, NEEDS, OTHERS, PAPERS, QUESTION, REPORTS, WE } from "./vocabulary.ts";

/** Words that are not to be taken in up to a place: what holds only perhaps, what somebody else says or wishes. */
export interface Aside {
  readonly to: number;
  /** Whether what was said last holds only perhaps as well: "replace it if it leaks". */
  readonly isLastPerhaps: boolean;
  /** What somebody asked of us that is ours to answer, a price or a call: that wish is a task. */
  readonly request: Found | null;
}

const aside = (to: number, rest: Partial<Aside> = {}): Aside => ({
  to,
  isLastPerhaps: false,
  request: null,
  ...rest,
});

/** The aside that begins at a place; null where none does. */
export function asideAt(scan: Scan, place: number): Aside | null {
  const { start, end } = scan;
  const [word, next, before] = [normAt(scan, place), normAt(scan, place + 1), normAt(scan, place - 1)];
  if (IF.has(word)) {
    // "if possible", "if you can" is only polite.
    if (word === "if" && /^(?:possible|you|we|i)$/.test(next)) return aside(clauseEnd(scan, place + 1));
    return aside(end, { isLastPerhaps: true });
  }
  if (word === "in" && next === "case") return aside(end);
  if (/^(?:when|whenever|while|until)$/.test(word)) return aside(clauseEnd(scan, place + 1));
  if (word === "as" && /^(?:needed|required|necessary)$/.test(next)) return aside(place + 2);
  if (word === "according") return aside(end);
  if (PAPERS.has(word) && (NEEDS.has(next) || /^(?:calls|says)$/.test(next))) return aside(end);
  const isTold =
    /^(?:advised|informed|notified|warned|reminded)$/.test(word) ||
    (word === "told" && next !== "us" && next !== "me");
  if (place === start || (isTold && isRole(scan, place - 1))) return null;
  const others = otherHaveDone(scan, place);
  if (others !== null) return aside(others);
  // "the tenant has asked", "he'd like".
  let subject = place - 1;
  while (/^(?:has|have|had|also|just|now)$/.test(normAt(scan, subject)) && subject > start) subject--;
  const whose = normAt(scan, subject);
  const isBySomeone = isRole(scan, subject) || OTHERS.has(whose) || PAPERS.has(whose);
  // "the tenant wants ringing" asks for a call.
  const isAnyone = /^(?:somebody|someone)$/.test(whose) && next === "to";
  const isOf = isRole(scan, subject) || whose === "it";
  const isForHim = /^wants?$/.test(word) && ((isOf && isNeedOfThings(scan, place)) || isAnyone);
  const isReport =
    REPORTS.has(word) && !isForHim && (isBySomeone || /^(?:says|said|reckons|claims)$/.test(word));
  const isLike = word === "like" && /^(?:he|she|they)'d$/.test(before);
  const isWanted = word === "want" && /^(?:he|she|they|people)$/.test(before) && !isNeedOfThings(scan, place);
  const isWish = isLike || isWanted || (word === "would" && next === "like" && isBySomeone);
  if (!isReport && !isWish) return null;
  const isOfPaper = PAPERS.has(whose);
  const request =
    (isBySomeone || isLike) && !isOfPaper && !isBut(scan, place)
      ? (quoteAsked(scan, place, subject) ?? callAsked(scan, place, subject))
      : null;
  const isWishing = isWish || /^(?:wants|wanted|asked|asks)$/.test(word);
  return aside(orderBehind(scan, Math.max(place, request?.last ?? 0), isWishing), { request });
}

/** "asked me to call back but I can't": it came to something else. */
function isBut(scan: Scan, place: number): boolean {
  for (let at = place; at < scan.end; at++) if (normAt(scan, at) === "but") return true;
  return false;
}

/** "they want changing": what things need. */
function isNeedOfThings(scan: Scan, place: number): boolean {
  return verbAt(scan, place + 1)?.forms.has("gerund") ?? false;
}

/** "owner wants a new pump, order one": where an order of our own begins behind a wish; the end of the sentence where none does. */
function orderBehind(scan: Scan, place: number, isWish: boolean): number {
  for (let at = place + 1; at < scan.end; at++) {
    if (isWeAgain(scan, at)) return at;
    const act = isWish && scan.words[at]?.stop === "," ? verbAt(scan, at) : null;
    if (act?.forms.has("base")) return at;
  }
  return scan.end;
}

/** "she said it never got hot so I'll come back": our own words again. */
function isWeAgain(scan: Scan, place: number): boolean {
  return /^(?:so|but)$/.test(normAt(scan, place - 1)) && WE.has(normAt(scan, place));
}

/** "wants us to call her", "asked us to come back on Friday", "asked for a call back". */
function callAsked(scan: Scan, place: number, subject: number): Found | null {
  let at = place + 1;
  while (/^(?:like|for|a|an|us|me|someone|somebody|if|to)$/.test(normAt(scan, at))) at++;
  const led = normAt(scan, at - 1);
  const act = verbAt(scan, at);
  if (!act?.forms.has("base") || scan.words[at]?.stop !== "") return null;
  const isAsked = led === "to" && /^(?:us|me|someone|somebody)$/.test(normAt(scan, at - 2));
  const who = isRole(scan, subject) ? subject : null;
  const last = at + act.length;
  if (act.action === "call" && (isAsked || led === "a")) {
    const told = toldFrom(scan, last);
    return toDo("call", at, last, {
      thing: told.thing,
      who: who ?? told.who,
      first: subject,
      last: told.last,
    });
  }
  return act.action === "return" && !act.isCommon && isAsked
    ? toDo("return", at, last, { first: subject, last })
    : null;
}

/** What somebody wishes is his own affair; a price that he asks for is one to be made. */
export function quoteAsked(scan: Scan, place: number, subject = place - 1): Found | null {
  for (let at = place + 1; at < Math.min(scan.end, place + 6); at++) {
    if (scan.words[at]?.stop !== "") return null;
    if (!/^(?:quote|quotation|price|estimate|quoted)$/.test(normAt(scan, at))) continue;
    const isFor = /^(?:for|on|of)$/.test(normAt(scan, at + 1));
    const thing = isFor ? quotedAfter(scan, at + 2) : null;
    const who = isRole(scan, subject) ? subject : null;
    return toDo("quote", at, at + 1, { thing, who, first: subject, last: thing?.end ?? at + 1 });
  }
  return null;
}

/** What a price is for: "a new pump", "replacing the boiler". */
export function quotedAfter(scan: Scan, place: number): Thing | null {
  const act = verbAt(scan, place);
  if (normAt(scan, place) === "it") return meantBy(scan, place);
  if (!act?.forms.has("gerund")) return thingAfter(scan, place, verbIn(scan));
  const thing = thingAfter(scan, place + act.length, verbIn(scan));
  if (!thing) return null;
  const isNamed = scan.words.slice(place, thing.start).some((_, at) => isPerson(scan, place + at));
  return { ...thing, start: isNamed ? thing.start : place, isNew: false };
}

/** Whether a sentence asks instead of telling; dictated ones have no question mark. */
export function isQuestion(scan: Scan): boolean {
  const { words, text, start, end } = scan;
  // "could somebody please ring the tenant" is a request, however it is written.
  if (/^(?:can|could|will|would|please)$/.test(normAt(scan, start)) && isPlease(scan)) return false;
  const last = words[end - 1];
  if (last && text.slice(last.to, words[end]?.from).includes("?")) return true;
  return (
    // "when the fan arrives fit it" is none.
    !scan.isWhen(start) &&
    // Nor is "have the pump replaced".
    haveDoneAt(scan, start) === null &&
    !isToBeDone(scan, start) &&
    QUESTION.has(normAt(scan, start)) &&
    /^(?:i|we|you|he|she|it|they|the|this|that)$/.test(normAt(scan, start + 1))
  );
}

function isPlease(scan: Scan): boolean {
  for (let at = scan.start; at < scan.end; at++) if (normAt(scan, at) === "please") return true;
  return false;
}

/** "have the caretaker clear it". */
function isToBeDone(scan: Scan, place: number): boolean {
  const who = normAt(scan, place) === "have" ? roleFrom(scan, place + 1) : null;
  return who !== null && (verbAt(scan, who + 1)?.forms.has("base") ?? false);
}
