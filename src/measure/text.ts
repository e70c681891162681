import { capital } from "./capital.ts";
import { withFigures } from "./figures.ts";
import { visible } from "./harmless.ts";

/** A sentence: first letter large, full stop unless it ends in a mark of its own. */
export function sentence(text: string): string {
  const trimmed = text.trim();
  if (trimmed === "") return "";
  const ended = /[.?!…]$/.test(trimmed) ? trimmed : `${trimmed}.`;
  return capital(ended);
}

/** What is said letter by letter, longer before shorter, and how it is written. */
const SPELLED = [
  ["C O 2", "CO2"],
  ["C O", "CO"],
  ["B T U per hour", "BTU/h"],
  ["B T U", "BTU"],
] as const;

/** Spoken words as they are shown: letters that are said one by one become a formula or unit again, numbers become
 * figures; what would steer the text around it is shown as a sign. */
export function shownText(spoken: string): string {
  return withFigures(SPELLED.reduce((text, [said, shown]) => text.replaceAll(said, shown), visible(spoken)));
}

/** A formula is one word, though it is said letter by letter. */
export function wordCount(text: string): number {
  return text
    .replaceAll(/\bC O( 2)?\b/g, "CO")
    .split(/\s+/)
    .filter((word) => word !== "").length;
}

/** The sentences of a text, each with its mark. */
export function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.?!…])\s+/).filter((each) => each !== "");
}
