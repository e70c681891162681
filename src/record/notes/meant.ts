import { normAt, type Scan, verbIn } from "./found.ts";
import { hasVerb, nameAfter, type Thing, thingAfter } from "./thing.ts";
import { isOfTrade } from "./trade-words.ts";
import { NEGATIVE, SYMPTOMS } from "./vocabulary.ts";

/** What "it" is: the thing of the task before, else what the sentence, or the one before it, says something of. */
export function meantBy(scan: Scan, place: number): Thing | null {
  const { words, start, found } = scan;
  const before = words.findLastIndex(({ stop }, at) => stop === "." && at < start);
  for (const first of before < 0 ? [start] : [start, before]) {
    const last = found.findLast(({ thing, first: at }) => thing !== null && at >= first);
    if (last) return last.thing;
    for (let at = first; at < place; at++) {
      const thing = nameAfter(scan, at, verbIn(scan));
      if (!thing || thing.end > place || (thing.end === place && words[place]?.stop === "")) continue;
      if (SYMPTOMS.has(normAt(scan, thing.end - 1))) continue;
      if (isOfParts(scan, thing) || (at === first && isTold(scan, at))) return thing;
    }
  }
  return null;
}

function isOfParts({ words }: Scan, { start, end }: Thing): boolean {
  return words.slice(start, end).some(({ norm }) => isOfTrade(norm));
}

/** Whether something is said of the thing that begins at a place: "… is worn", "… noisy". */
function isTold(scan: Scan, place: number): boolean {
  const thing = thingAfter(scan, place, verbIn(scan));
  const word = thing && scan.words[thing.end];
  if (!word) return false;
  return hasVerb(scan, thing.end) || ["Verb", "Adjective", "PastTense"].some((tag) => word.tags.has(tag));
}

/** "… and should be replaced", "it should be replaced": what is said before, or not at all. */
export function isLeftOut(scan: Scan, place: number): boolean {
  return scan.words[place]?.stop !== "" || /^(?:it|they|these|those|and)$/.test(normAt(scan, place - 1));
}

/** "nothing replaced", "no parts ordered". */
export function isNone(scan: Scan, { start }: Thing): boolean {
  return start > scan.start && NEGATIVE.has(normAt(scan, start - 1));
}
