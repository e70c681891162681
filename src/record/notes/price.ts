import { quotedAfter } from "./aside.ts";
import { isRole, normAt, pastArticles, type Reading, roleFrom, type Scan, toDo, verbIn } from "./found.ts";
import { ledAt } from "./governed.ts";
import { isPerson, nameAfter } from "./thing.ts";
import { DETERMINERS, NEEDS, NEGATIVE, PRICES } from "./vocabulary.ts";

const MAKE = /^(?:send|give|get|make|do|prepare)$/;
const MADE = /^(?:sent|gave|given|made|did)$/;
const PUT = /^(?:put|add|include|stick)$/;
const FAR = 5;

/** "send the owner a price for a pump", "needs a quote for a pump", "put a pump on the quote". */
export function priceAt(scan: Scan, place: number): Reading {
  const word = normAt(scan, place);
  if (PUT.test(word)) return putAt(scan, place);
  const isMade = MADE.test(word);
  if (!isMade && !MAKE.test(word) && !NEEDS.has(word)) return null;
  let who: number | null = null;
  let at = place + 1;
  for (; at < place + FAR && !PRICES.has(normAt(scan, at)); at++) {
    if (scan.words[at]?.stop !== "") return null;
    if (isRole(scan, at)) who = at;
    else if (!isPassed(scan, at)) return null;
  }
  if (!PRICES.has(normAt(scan, at)) || at === place + 1 || scan.words[at]?.stop !== "") return null;
  const meant = meantAt(scan, place);
  if (meant === "denied" || meant === null) return meant;
  const next = normAt(scan, at + 1);
  const to = next === "to" ? roleFrom(scan, at + 2) : null;
  const tie = to === null ? at + 1 : to + 1;
  const thing =
    /^(?:for|on|of)$/.test(normAt(scan, tie)) && !scan.isWhen(tie) ? quotedAfter(scan, tie + 1) : null;
  // "the price list", and "the price" of what nobody says.
  const after = scan.words[at + 1];
  const isName =
    after?.stop === "" && after.tags.has("Noun") && !scan.isWhen(at + 1) && !isRole(scan, at + 1);
  if (!thing && (isName || normAt(scan, at - 1) === "the")) return null;
  const last = thing?.end ?? tie;
  return toDo("quote", at, at + 1, { thing, who: who ?? to, done: meant === "done", first: place, last });
}

/** How the verb of a price is meant. */
function meantAt(scan: Scan, place: number): "to-do" | "done" | "denied" | null {
  const word = normAt(scan, place);
  const before = normAt(scan, place - 1);
  if (NEEDS.has(word)) return NEGATIVE.has(before) ? "denied" : isRole(scan, place - 1) ? null : "to-do";
  const by = ledAt(scan, place, MADE.test(word) ? "past" : "base");
  if (by.isDenied) return "denied";
  // "the owner is to get a quote" is his affair.
  const isTheirs = by.who !== null && normAt(scan, by.who) !== "office";
  return by.meant === "nothing" || isTheirs ? null : by.meant;
}

/** "put a pump on the quote as well". */
function putAt(scan: Scan, place: number): Reading {
  const meant = meantAt(scan, place);
  const thing = nameAfter(scan, place + 1, verbIn(scan));
  if (!thing || meant === null || meant === "denied") return meant === "denied" ? meant : null;
  if (!/^(?:on|to|in)$/.test(normAt(scan, thing.end))) return null;
  const price = pastArticles(scan, thing.end + 1);
  if (!PRICES.has(normAt(scan, price)) || price === thing.end + 1) return null;
  return toDo("quote", price, price + 1, { thing, first: place, last: price + 1 });
}

function isPassed(scan: Scan, place: number): boolean {
  const word = normAt(scan, place);
  return (
    DETERMINERS.has(word) ||
    /^(?:him|her|them|up|out|together|good|rough)$/.test(word) ||
    isPerson(scan, place)
  );
}
