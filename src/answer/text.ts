import { capital } from "../measure/capital.ts";
import { withFigures } from "../measure/figures.ts";

/** A sentence: first letter large, full stop unless it ends in a mark of its own. */
export function sentence(text: string): string {
  const trimmed = text.trim();
  if (trimmed === "") return "";
  const ended = /[.?!…]$/.test(trimmed) ? trimmed : `${trimmed}.`;
  return capital(ended);
}

/** Spoken words as they are shown: letters that are said one by one become a formula again, numbers become figures. */
export function shownText(spoken: string): string {
  return withFigures(spoken.replaceAll("C O 2", "CO2").replaceAll("C O", "CO"));
}

export function wordCount(text: string): number {
  return text.split(/\s+/).filter((word) => word !== "").length;
}

/** The sentences of a text, each with its mark. */
export function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.?!…])\s+/).filter((each) => each !== "");
}
