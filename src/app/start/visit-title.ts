import { harmless } from "../../measure/harmless.ts";
import type { VisitHead } from "../../visit/visit.ts";

/** A visit's name in lists. */
export function titleOf(head: VisitHead): string {
  return harmless(head.title || head.sheet?.title || "Visit without a sheet");
}

/** How much of a title goes into a file's name. */
const TITLE_LETTERS = 40;

/** The name of a visit's file, or of its record's: its title in letters that every system takes, its day, and what makes it its own. */
export function fileNameOf(head: VisitHead, what = "visit", ending = "json"): string {
  const title = plain(titleOf(head)).slice(0, TITLE_LETTERS).replace(/-$/, "").toLowerCase();
  // Whole where it is one of the app's own; of another's what every system takes.
  const parts = [`burnerside-${what}`, title, head.startedAt.slice(0, 10), plain(head.id.slice(0, 8))];
  return `${parts.filter((part) => part !== "").join("-")}.${ending}`;
}

/** Only letters and figures that every system takes in a file's name, hyphens between. */
function plain(text: string): string {
  return text
    .normalize("NFKD")
    .replace(/[^A-Za-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
}
