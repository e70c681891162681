import { isRole, normAt, type Reading, type Scan, toDo } from "./found.ts";
import { NEGATIVE, OTHERS, POSSIBLE, QUESTION } from "./vocabulary.ts";

/** Checks that the trade names by what is looked for. */
const CHECKS = /^(?:leak|tightness|soundness|spillage|purge|letting-by|drop|ventilation)$/;
const DID = /^(?:did|done|repeated|redid|made)$/;
const WAS = /^(?:done|repeated|carried|redone)$/;

/** "did the leak check again", "leak check done": that it was made, though not how it came out. */
export function checkAt(scan: Scan, place: number): Reading {
  if (!CHECKS.test(normAt(scan, place)) || !/^(?:check|test)$/.test(normAt(scan, place + 1))) return null;
  let from = place - 1;
  while (from >= scan.start && /^(?:the|a|another|one|last|final|and)$/.test(normAt(scan, from))) from--;
  const word = normAt(scan, from);
  const last = scan.found.at(-1);
  const isNext =
    /^(?:check|test)$/.test(word) && last?.action === "check" && last.done && last.first >= scan.start;
  const isDid = from >= scan.start && (DID.test(word) || isNext);
  const before = isDid && scan.words[from]?.stop === "" ? normAt(scan, from - 1) : "";
  if (
    isDid &&
    ((before !== "" && isRole(scan, from - 1)) ||
      (before !== "it" && OTHERS.has(before)) ||
      NEGATIVE.has(before) ||
      QUESTION.has(before))
  )
    return null;
  if (!isDid && (NEGATIVE.has(word) || POSSIBLE.has(word))) return null;
  let after = place + 2;
  while (
    /^(?:is|was|has|been|again|then|now|since)$/.test(normAt(scan, after)) &&
    scan.words[after]?.stop === ""
  )
    after++;
  const isDone = isDid || (WAS.test(normAt(scan, after)) && scan.words[after]?.stop === "");
  if (!isDone || after > scan.end) return null;
  if (!isDid && normAt(scan, after + 1) === "by") return null;
  const thing = { start: place, end: place + 1, isNew: false };
  const end = isDid ? place + 2 : after + 1;
  return toDo("check", place + 1, place + 2, { thing, done: true, first: isDid ? from : place, last: end });
}
