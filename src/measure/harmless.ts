/** Shown for a sign that cannot be shown as it is. */
export const NO_SIGN = "□";

/**
 * What turns the direction of the text around it, splits lines, steers a terminal, or is there and not seen (Unicode's
 * Default_Ignorable_Code_Point). Not what joins letters or chooses how one looks: scripts are written with it.
 */
const STEERING =
  /(?!\p{Join_Control}|\p{Variation_Selector})[\p{Cc}\p{Default_Ignorable_Code_Point}\u2028\u2029\uFFF9-\uFFFB]/gu;

/**
 * Text from outside that moves nothing around it: what steers is shown as a sign. As long as it was (UTF-16 units), so that
 * places in it stay where they are.
 */
export function visible(text: string): string {
  return text
    .toWellFormed()
    .replace(/[\t\r\n]/g, " ")
    .replace(STEERING, (sign) => NO_SIGN.repeat(sign.length));
}

/** The same as one line: all white space between words is one space, there is none at its ends. */
export function harmless(text: string): string {
  return visible(text).replace(/ +/g, " ").trim();
}

/** The same, at most so many letters as a reader counts them, and "…" for what was left out. */
export function shortText(text: string, most: number): string {
  const line = harmless(text);
  if (line.length <= most) return line;
  const letters = [...GRAPHEMES.segment(line.slice(0, 8 * most))];
  if (letters.length <= most && line.length <= 8 * most) return line;
  return `${letters
    .slice(0, most - 1)
    .map(({ segment }) => segment)
    .join("")}…`;
}

/** Letters as a reader counts them: a base with all that is set on it. */
export const GRAPHEMES = new Intl.Segmenter("en", { granularity: "grapheme" });
