import { backupKind } from "../../record/backup/kind.ts";
import { FORMATS, sizeProblem } from "../../record/format.ts";
import type { Finding } from "../../record/integrity/finding.ts";
import { type Export, exportOf, lineOf } from "../../record/office/kept.ts";
import { logFound } from "../../record/office/log-found.ts";
import type { Visit } from "../../visit/visit.ts";
import { readImport } from "../start/import-file.ts";

/** A file, or a line of one, as the office takes it: an export re-judged, one that is kept already, or why it is none, in one sentence. */
export type Judged =
  | { readonly kind: "export"; readonly export: Export }
  | { readonly kind: "known" }
  | { readonly kind: "refused"; readonly sentence: string };

/** Whether just this text is kept of a visit: then it was judged already. */
export type IsKnown = (visitId: string, text: string) => Promise<boolean>;

/** What can be said of a visit's log; null where the platform cannot examine it. */
export type ExamineLog = (visit: Visit) => Promise<Finding | null>;

/** Validates a visit bundle and judges it anew. Never rejects. `name` is the file's, and is told as it is. */
export async function judged(
  name: string,
  bytes: Uint8Array,
  now: string,
  isKnown: IsKnown,
  examine: ExamineLog,
): Promise<Judged> {
  if (backupKind(bytes))
    return refused(`${name}: expected a visit, found a backup; bring that in at the start.`);
  // Whoever hands over a letter or a spreadsheet need not read what a JSON reader makes of it.
  if (!isObject(bytes))
    return refused(`${name}: this is not an exported visit; ask for the visit's bundle (a .json file).`);
  try {
    const read = readImport(name, bytes);
    switch (read.kind) {
      case "visit": {
        const text = lineOf(read.visit);
        if (await isKnown(read.visit.head.id, text)) return { kind: "known" };
        const log = logFound(await examine(read.visit));
        return { kind: "export", export: exportOf(read.visit, log, name, now, text) };
      }
      case "sheet":
        return refused(`${name}: expected a visit, found a limits sheet; bring that in at the start.`);
      case "bad":
        return refused(oneSentence(read.sentences));
    }
  } catch (error) {
    return refused(
      `${name}: it could not be judged (${error instanceof Error ? error.message : "unknown"}).`,
    );
  }
}

/** Whether the first sign of a file, but for spaces and a byte order mark, begins a JSON object. */
function isObject(bytes: Uint8Array): boolean {
  const head = new TextDecoder().decode(bytes.subarray(0, 4096)).trimStart();
  return head === "" ? bytes.length > 4096 : head.startsWith("{");
}

/** Of a visit bundle. */
export const LARGEST_BYTES = FORMATS.visit.largestMiB * 1024 * 1024;

/** Why a file is too large to be read at all; null where it is not. `size` in bytes, which are no fewer than its letters. */
export function tooLarge(name: string, size: number): string | null {
  const problem = sizeProblem(size, "visit");
  return problem && `${name}: ${problem.message}`;
}

function oneSentence([first = "", ...more]: readonly string[]): string {
  if (more.length === 0) return first;
  const others = more.length === 1 ? "one more problem" : `${more.length} more problems`;
  return `${first.replace(/\.$/, "")}; and ${others}.`;
}

function refused(sentence: string): Judged {
  return { kind: "refused", sentence };
}
