import { normAt, type Scan, verbIn } from "./found.ts";
import { hasVerb, isQuality, nameAfter, type Thing, thingAfter, thingBefore } from "./thing.ts";
import { isOfTrade } from "./trade-words.ts";
import { DETERMINERS, NEGATIVE, PRICES, SYMPTOMS } from "./vocabulary.ts";

/** What "it" is: the thing of the task before, else what the sentence, or the one before it, says something of. */
export function meantBy(scan: Scan, place: number): Thing | null {
  const { words, start, found } = scan;
  const before = words.findLastIndex(({ stop }, at) => stop === "." && at < start);
  // Behind "but" it is of what is said there.
  const but = words.findLastIndex(
    ({ norm }, at) => at > start && at < place - 1 && /^(?:but|however)$/.test(norm),
  );
  for (const first of [...(but < 0 ? [] : [but + 1]), start, ...(before < 0 ? [] : [before])]) {
    const last = found.findLast(({ thing, first: at }) => thing !== null && at >= first);
    if (last) return last.thing;
    for (let at = first; at < place; at++) {
      const thing = nameAfter(scan, at, verbIn(scan));
      if (!thing || thing.end > place || (thing.end === place && words[place]?.stop === "")) continue;
      if (SYMPTOMS.has(normAt(scan, thing.end - 1))) continue;
      if (isOfParts(scan, thing) || (at === first && isTold(scan, at))) return thing;
    }
  }
  // "when the fan arrives fit it".
  for (let at = start; at < place; at++) {
    const thing = scan.isWhen(at) ? nameAfter({ ...scan, isWhen: () => false }, at, verbIn(scan)) : null;
    if (thing && thing.end <= place && isOfParts(scan, thing)) return thing;
  }
  return null;
}

function isOfParts({ words }: Scan, { start, end }: Thing): boolean {
  return words.slice(start, end).some(({ norm }) => isOfTrade(norm));
}

/** Whether something is said of the thing that begins at a place: "… is worn", "… noisy". */
function isTold(scan: Scan, place: number): boolean {
  const thing = thingAfter(scan, place, verbIn(scan));
  if (!thing) return false;
  // "screen half blocked".
  const at = /^(?:half|nearly|all)$/.test(normAt(scan, thing.end)) ? thing.end + 1 : thing.end;
  const word = scan.words[at];
  if (!word) return false;
  return hasVerb(scan, at) || ["Verb", "Adjective", "PastTense"].some((tag) => word.tags.has(tag));
}

/** What something is said of that a place comes after: "trap needs a clean", "filter was filthy, needs a clean". */
export function subjectBefore(scan: Scan, place: number, first: number): Thing | null {
  const isBoth =
    place > first && /^(?:both|all)$/.test(normAt(scan, place - 1)) && scan.words[place]?.stop === "";
  const thing = thingBefore(scan, isBoth ? place - 1 : place, first);
  if (!thing) return null;
  // "the quote for the pump was sent": it is not the pump that was.
  let tie = thing.start - 1;
  while (tie > first && DETERMINERS.has(normAt(scan, tie))) tie--;
  if (tie > first && normAt(scan, tie) === "for" && PRICES.has(normAt(scan, tie - 1))) return null;
  if (isSaidOf(scan, thing)) return meantBy(scan, thing.start);
  // "cock stiff, needs greasing".
  let { end } = thing;
  while (scan.words[place]?.stop === "," && end > thing.start + 1 && isQuality(scan.words[end - 1])) end--;
  return { ...thing, end };
}

/** "… and should be replaced", "it should be replaced": what is said before, or not at all. */
export function isLeftOut(scan: Scan, place: number): boolean {
  return (
    scan.words[place]?.stop !== "" || /^(?:it|they|these|those|and|both|all)$/.test(normAt(scan, place - 1))
  );
}

/** "nothing replaced", "no parts ordered". */
export function isNone(scan: Scan, { start }: Thing): boolean {
  return start > scan.start && NEGATIVE.has(normAt(scan, start - 1));
}

const LIKE =
  /^(?:is|are|was|were|be|been|being|getting|gets|got|looks?|looking|seems?|very|quite|rather|bit|pretty|so|too|really|half|badly)$/;

/** Whether a word before a verb is what something is like, and no thing: "filter was filthy, wants cleaning". */
function isSaidOf(s: Scan, { start }: Thing): boolean {
  return s.words[start]?.stop === "" && LIKE.test(s.words[start - 1]?.norm ?? "");
}
