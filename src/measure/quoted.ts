/** Letters of a file's text that a sentence shows. */
const LONGEST = 60;

/** Text from a file in quotes, cut short. */
export function quoted(text: string): string {
  return escaped(JSON.stringify(cut(text)));
}

/** A name from a file without quotes, cut short. */
export function named(text: string): string {
  return escaped(cut(text));
}

/** Control and direction characters as escapes: a hostile file must not steer the terminal that shows its problems. */
export function escaped(text: string): string {
  return text.replace(
    /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/gu,
    (c) => `\\u{${(c.codePointAt(0) ?? 0).toString(16)}}`,
  );
}

function cut(text: string): string {
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}
