import { clauseEnd, type Found, isRole, normAt, type Scan, toDo, verbAt, verbIn } from "./found.ts";
import { isPerson, type Thing, thingAfter } from "./thing.ts";
import { IF, NEEDS, OTHERS, PAPERS, QUESTION, REPORTS } from "./vocabulary.ts";

/** Words that are not to be taken in up to a place: what holds only perhaps, what somebody else says or wishes. */
export interface Aside {
  readonly to: number;
  /** Whether what was said last holds only perhaps as well: "replace it if it leaks". */
  readonly isLastPerhaps: boolean;
  /** A price that somebody asked for: that one wish is a task. */
  readonly quote: Found | null;
}

const aside = (to: number, rest: Partial<Aside> = {}): Aside => ({
  to,
  isLastPerhaps: false,
  quote: null,
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
  const isBySomeone = isRole(scan, place - 1) || OTHERS.has(before) || PAPERS.has(before);
  const isReport = REPORTS.has(word) && (isBySomeone || /^(?:says|said|reckons|claims)$/.test(word));
  const isWish = word === "would" && next === "like" && isBySomeone;
  if (!isReport && !isWish) return null;
  return aside(end, { quote: isBySomeone && !PAPERS.has(before) ? quoteAsked(scan, place) : null });
}

/** What somebody wishes is his own affair; a price that he asks for is one to be made. */
export function quoteAsked(scan: Scan, place: number): Found | null {
  for (let at = place + 1; at < Math.min(scan.end, place + 6); at++) {
    if (!/^(?:quote|quotation|price|estimate|quoted)$/.test(normAt(scan, at))) continue;
    const isFor = /^(?:for|on|of)$/.test(normAt(scan, at + 1));
    const thing = isFor ? quotedAfter(scan, at + 2) : null;
    const who = isRole(scan, place - 1) ? place - 1 : null;
    return toDo("quote", at, at + 1, { thing, who, first: place - 1, last: thing?.end ?? at + 1 });
  }
  return null;
}

/** What a price is for: "a new pump", "replacing the boiler". */
export function quotedAfter(scan: Scan, place: number): Thing | null {
  const act = verbAt(scan, place);
  if (!act?.forms.has("gerund")) return thingAfter(scan, place, verbIn(scan));
  const thing = thingAfter(scan, place + act.length, verbIn(scan));
  if (!thing) return null;
  const isNamed = scan.words.slice(place, thing.start).some((_, at) => isPerson(scan, place + at));
  return { ...thing, start: isNamed ? thing.start : place, isNew: false };
}

/** Whether a sentence asks instead of telling; dictated ones have no question mark. */
export function isQuestion(scan: Scan): boolean {
  const { words, text, start, end } = scan;
  const last = words[end - 1];
  if (last && text.slice(last.to, words[end]?.from).includes("?")) return true;
  return (
    QUESTION.has(normAt(scan, start)) &&
    /^(?:i|we|you|he|she|it|they|the|this|that)$/.test(normAt(scan, start + 1))
  );
}
