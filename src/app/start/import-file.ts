import { shortText } from "../../measure/harmless.ts";
import { fileProblems } from "../../record/any-file.ts";
import { type BackupKind, backupKind } from "../../record/backup/kind.ts";
import { visitFrom } from "../../record/bundle.ts";
import { kindOf, sizeProblem } from "../../record/format.ts";
import { logLine, logWords } from "../../record/integrity/words.ts";
import { readJson } from "../../record/json.ts";
import type { Problem } from "../../record/problem.ts";
import { sheetFrom } from "../../record/sheet-file.ts";
import { decodeText } from "../../record/utf8.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Signed } from "../safekeeping/signing.ts";
import { fieldName } from "../sheets/fields.ts";

/** Of a file so many bytes tell whether it is a backup. */
const START = 256;

/** How a chosen file is packed where it is a backup; null where it is something else. Rejects where it cannot be read. */
export async function backupKindOf(file: Blob): Promise<BackupKind | null> {
  return backupKind(new Uint8Array(await file.slice(0, START).arrayBuffer()));
}

/** What a chosen file turned out to be. */
export type Imported =
  | { readonly kind: "sheet"; readonly sheet: Sheet }
  | { readonly kind: "visit"; readonly visit: Visit }
  | { readonly kind: "bad"; readonly sentences: readonly string[] };

/** What is wrong with a chosen file that is too large to be read at all, by its bytes; null where it is not. */
export function unreadablyLarge({ name, size }: Pick<File, "name" | "size">): Imported | null {
  const problem = sizeProblem(size, "visit");
  return problem && bad(name, [problem]);
}

/** Reads a limits sheet or a visit bundle by its `format`. Problems come as one sentence each, with file and place. */
export function readImport(file: string, bytes: Uint8Array): Imported {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return bad(file, decoded.problems);
  const { text } = decoded;
  const json = readJson(text);
  const kind = json.ok ? kindOf(json.value) : null;
  if (!json.ok || kind === null) return bad(file, fileProblems(text));
  const tooLarge = sizeProblem(text.length, kind);
  if (tooLarge) return bad(file, [tooLarge]);
  switch (kind) {
    case "visit": {
      const read = visitFrom(json.value);
      return read.ok ? { kind, visit: read.visit } : bad(file, read.problems);
    }
    case "sheet": {
      const read = sheetFrom(json.value);
      return read.ok ? { kind, sheet: read.sheet } : bad(file, read.problems);
    }
    case "voice":
      return bad(file, [VOICE]);
  }
}

/** It is of a person, not of the work: where people are kept it says whose it is. */
const VOICE: Problem = {
  path: "format",
  message: "Expected a limits sheet or a visit, found a voice file: bring it in under Settings, Own voice.",
};

/** What is said of the log of a visit that was kept. */
export function logOnImport({ visit, ...examined }: Signed): {
  readonly log: readonly string[];
  readonly altered: boolean;
} {
  const words = logWords(visit, examined);
  const altered = words.verdict === "altered";
  return { log: altered ? [logLine(words), KEPT_AS_IT_CAME] : [logLine(words)], altered };
}

const KEPT_AS_IT_CAME =
  "The visit was kept as it came, and nothing of it was mended: its record says so at the top, and so does this page whenever it is exported.";

function bad(file: string, problems: readonly Problem[]): Imported {
  return { kind: "bad", sentences: problems.map((problem) => sentence(file, problem)) };
}

/** The file, the place in it as it is written there and in words, and what is wrong. */
function sentence(file: string, { path, message }: Problem): string {
  const words = placeInWords(path);
  const place = words === "" ? path : `${path} (${words})`;
  return `${shortText(file, 80)}${place ? `, ${place}` : ""}: ${message.replace(/\.?$/, ".")}`;
}

/** A place in words where they say more than its name: of a sheet by the names of its form, of a visit by counting. */
function placeInWords(path: string): string {
  const entry = /^entries\[(\d+)\](.*)$/.exec(path);
  if (entry) return `entry ${Number(entry[1]) + 1} of the visit`;
  const inSheet = path.replace(/^head\.sheet\./, "");
  const check = /^closing\[(\d+)\]$/.exec(inSheet);
  if (check) return `closing check ${Number(check[1]) + 1}`;
  if (!/^(source|fuels|adjusters|settleSeconds)\./.test(inSheet)) return "";
  const name = fieldName(inSheet);
  return inSheet === path ? name : `${name}, in the visit's sheet`;
}
