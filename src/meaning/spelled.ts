const DIGITS = "zero one two three four five six seven eight nine".split(" ");

/**
 * The number that words spell digit by digit: "four zero" is 40, "one nine point five" 19.5. Null where they are fewer
 * than two digits or anything else; only words of a unit may follow, where there is one.
 */
export function spelledOut(said: string, hasUnit: boolean): number | null {
  const signs = said
    .toLowerCase()
    .split(/\s+/)
    .map((word) => (word === "point" ? "." : word === "oh" ? "0" : String(DIGITS.indexOf(word))));
  const unit = signs.indexOf("-1");
  const digits = (hasUnit && unit >= 0 ? signs.slice(0, unit) : signs).join("");
  return /^\d\d+(?:\.\d+)?$|^\d\.\d+$/.test(digits) ? Number(digits) : null;
}
