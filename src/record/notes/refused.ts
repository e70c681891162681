import { type Found, isRole, type Scan } from "./found.ts";

const WHO = /^(?:he|she|they|but|and|then|though|who|it|him|her|them|person|people)$/;
const NO =
  /^(?:refused|refuses|declined|declines|wouldn't|wouldnt|won't|wont|didn't want|didnt want|doesn't want|does not want|did not want|would not|will not|said no|says no|not interested|no answer|no reply|wasn't in|not in|not at home|could not reach|couldn't reach|could not be reached|got no answer|did not answer|didn't answer|not keen|turned it down|against it)\b/;
const FAR = 4;

/** Whether the last that was told, asked or called came to nothing: "… he refused", "… no answer". Then it is no task. */
export function isRefused(scan: Scan, place: number, last: Found | undefined): boolean {
  if (!last) return false;
  const isAsked = last.action === "tell" || last.action === "call" || last.action === "quote";
  const isBySomeone = isRole(scan, place - 1) || /^(?:he|she|they)$/.test(scan.words[place - 1]?.norm ?? "");
  if (!isAsked && !(isBySomeone && (!last.done || last.action === "order"))) return false;
  const rest = scan.words
    .slice(place, Math.min(scan.end, place + 5))
    .map(({ norm }) => norm)
    .join(" ");
  if (!NO.test(rest)) return false;
  if (last.first >= scan.start) return true;
  // A sentence of its own: only where it is of that person: "He refused.", "No answer."
  const before = scan.words.findLastIndex(({ stop }, at) => stop === "." && at < scan.start);
  if (last.first < before || place - scan.start > FAR) return false;
  return scan.words
    .slice(scan.start, place)
    .every(({ norm }, at) => WHO.test(norm) || norm === "the" || isRole(scan, scan.start + at));
}
