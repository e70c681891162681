import { TEEN_AND_UNIT } from "./spoken-number.ts";

const HOUR = `(?:\\d{1,2}|${TEEN_AND_UNIT})`;
const TIME = `(?:(?:half past|(?:a )?quarter (?:past|to)) ${HOUR}|\\d{1,2}[:.]\\d{2}(?: ?[ap]\\.?m\\b)?|${HOUR}(?: ?[ap]\\.?m\\b| o'?clock| thirty| fifteen| forty[ -]five)|noon|midday|lunchtime)`;
const ANY = `(?:${TIME}|${HOUR})`;

/** Time of a day, as it stands before or behind the day: "at half past nine", "between two and four". */
const CLOCK = `(?:between ${ANY} and ${ANY}|from ${ANY} (?:to|until|till) ${ANY}|(?:at|around|about|by|before|after) (?:around |about )?${TIME}|(?:at|around|about|after) ${HOUR})`;

/** What is counted behind a number: then it is no hour. */
const NOT_COUNTED =
  "(?![.:]?\\d|[ -](?:\\p{L}+ty|half|thirty|point|percent|per|bar|mbar|degrees|days?|weeks?|months?|years?|hours?|minutes?|boilers?|of)(?!\\p{L}))";

const BEFORE = new RegExp(`(?<![\\p{L}\\p{N}])${CLOCK}${NOT_COUNTED} (?:on )?(?:the )?$`, "iu");
const BEHIND = new RegExp(`^,? (?:${CLOCK}|${TIME})${NOT_COUNTED}(?![\\p{L}\\p{N}])`, "iu");
const SAID = new RegExp(`(?<![\\p{L}\\p{N}])(?:${CLOCK}|${TIME})${NOT_COUNTED}(?![\\p{L}\\p{N}])`, "iu");

/** Letters that a time of day takes up before a place; 0 where none ends there. */
export function timeBefore(text: string): number {
  const [found = ""] = BEFORE.exec(text.slice(-60)) ?? [];
  return found.length;
}

/** Letters that a time of day takes up from the beginning of a text; 0 where none begins there. */
export function timeBehind(text: string): number {
  const [found = ""] = BEHIND.exec(text.slice(0, 60)) ?? [];
  return found.length;
}

/** Whether words tell an hour. */
export function hasTimeOfDay(words: string): boolean {
  return SAID.test(words);
}
