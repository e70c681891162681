const UNITS = "one two three four five six seven eight nine".split(" ");
const TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(" ");
const TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");

/** Whole numbers from one, as they are said or written, for a pattern. */
export const NUMBER = `\\d{1,4}|an?|(?:${TENS.join("|")})(?:[ -](?:${UNITS.join("|")}))?|${[...TEENS, ...UNITS].join("|")}`;

/** From one to nineteen in words, the longest first, for a pattern. */
export const TEEN_AND_UNIT = [...TEENS, ...UNITS].join("|");

/** The value of a NUMBER; null of none. */
export function numberOf(words: string): number | null {
  const said = words.toLowerCase();
  if (/^\d+$/.test(said)) return Number(said);
  if (said === "a" || said === "an") return 1;
  const [one = "", other = ""] = said.split(/[ -]/);
  const tens = TENS.indexOf(one);
  if (tens >= 0) return 20 + 10 * tens + UNITS.indexOf(other) + 1;
  const teen = TEENS.indexOf(one);
  if (teen >= 0) return 10 + teen;
  const unit = UNITS.indexOf(one);
  return unit < 0 ? null : unit + 1;
}

const FIRST_ORDINALS = "first second third fourth fifth sixth seventh eighth ninth".split(" ");
const TEEN_ORDINALS =
  "tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth".split(
    " ",
  );

/** Days of a month, as they are said or written, for a pattern. */
export const ORDINAL = `\\d{1,2}(?:st|nd|rd|th)|(?:twenty|thirty)[ -](?:${FIRST_ORDINALS.join("|")})|twentieth|thirtieth|${[...TEEN_ORDINALS, ...FIRST_ORDINALS].join("|")}`;

/** The day of a month of an ORDINAL; null where no month has it. */
export function ordinalOf(words: string): number | null {
  const said = words.toLowerCase();
  const value = dateOf(said);
  return value >= 1 && value <= 31 ? value : null;
}

function dateOf(said: string): number {
  if (/^\d/.test(said)) return Number.parseInt(said, 10);
  if (said === "twentieth") return 20;
  if (said === "thirtieth") return 30;
  const [one = "", other = ""] = said.split(/[ -]/);
  if (other !== "") return (one === "twenty" ? 20 : 30) + FIRST_ORDINALS.indexOf(other) + 1;
  const teen = TEEN_ORDINALS.indexOf(one);
  return teen >= 0 ? 10 + teen : FIRST_ORDINALS.indexOf(one) + 1;
}
