const DIGITS = "zero one two three four five six seven eight nine".split(" ");

/**
 * The number that words spell digit by digit: "four zero" is 40, "one nine point five" 19.5. Null where they are fewer
 * than two digits or anything else.
 */
export function spelledOut(said: string): number | null {
  const signs = said
    .toLowerCase()
    .split(/\s+/)
    .map((word) => (word === "point" ? "." : word === "oh" ? "0" : String(DIGITS.indexOf(word))));
  const digits = signs.join("");
  return /^\d\d+(?:\.\d+)?$|^\d\.\d+$/.test(digits) ? Number(digits) : null;
}
