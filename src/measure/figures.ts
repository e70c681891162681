import { shownNumber, spokenNumber } from "./show.ts";

const UNITS =
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(
    " ",
  );
const TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");
const SIZES: ReadonlyMap<string, number> = new Map([
  ...UNITS.map((word, value) => [word, value] as const),
  ...TENS.map((word, i) => [word, 20 + 10 * i] as const),
]);
const WORD = `(?:${[...SIZES.keys(), "hundred", "thousand"].join("|")})`;
/** A number as `spokenNumber` says it. */
const NUMBER = new RegExp(
  `\\b(minus )?(${WORD}(?: ${WORD})*(?: point(?: (?:${UNITS.slice(0, 10).join("|")}))+)?)\\b(?! the\\b)`,
  "gi",
);

/** A text with the numbers that `spokenNumber` spelled out in figures: "CO2 nine point two" is "CO2 9.2". "One" alone may be no number, "zero the" and "seven one five" are none. */
export function withFigures(text: string): string {
  return text.replace(NUMBER, (words, minus: string | undefined, number: string) => {
    if (/^(one|thousand|hundred)$/i.test(words)) return words;
    const [whole = "", decimals] = number.toLowerCase().split(" point ");
    const tail = decimals
      ? `.${decimals
          .split(" ")
          .map((word) => SIZES.get(word) ?? 0)
          .join("")}`
      : "";
    const value = (minus ? -1 : 1) * Number(`${wholeOf(whole)}${tail}`);
    // Digits said one by one, as of a part number in a note, are no number.
    return spokenNumber(value) === words.toLowerCase() ? shownNumber(value) : words;
  });
}

function wholeOf(words: string): number {
  let total = 0;
  let part = 0;
  for (const word of words.split(" ")) {
    if (word === "thousand") {
      total += part * 1000;
      part = 0;
    } else if (word === "hundred") part *= 100;
    else part += SIZES.get(word) ?? 0;
  }
  return total + part;
}
