import { visible } from "../measure/harmless.ts";

/** What JSON leaves as it is in a text, and a terminal, or a person who reads one, may be led by. */
const STEERING = /[\u007F-\u009F\p{Cf}\p{Default_Ignorable_Code_Point}\u2028\u2029]/gu;

/**
 * One JSON object as one line (RFC 8259), with what would steer a terminal written as escapes: a reader of JSON gets the same value.
 */
export function jsonLine(value: unknown): string {
  return JSON.stringify(value).replace(STEERING, escaped);
}

/** Lines for people, in which names and words from files steer nothing. */
export function terminalText(text: string): string {
  return text.split("\n").map(visible).join("\n");
}

/** In UTF-16 units, as JSON has it (section 7). */
function escaped(sign: string): string {
  return [...Array(sign.length).keys()]
    .map((at) => `\\u${sign.charCodeAt(at).toString(16).padStart(4, "0")}`)
    .join("");
}
