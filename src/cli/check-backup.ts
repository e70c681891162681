import { createReadStream } from "node:fs";
import { open, stat } from "node:fs/promises";
import { boundedLines, unpacked } from "../device/backup/packed.ts";
import { sha256 } from "../device/signing/sha256.ts";
import { type BackupKind, backupKind } from "../record/backup/kind.ts";
import { BACKUP_LIMITS } from "../record/backup/limits.ts";
import type { Counts } from "../record/backup/line.ts";
import { cutProblem, LONGEST_HEAD, readLockedHead } from "../record/backup/locked.ts";
import { type Found, readBackup } from "../record/backup/read.ts";
import type { Item } from "../record/backup/read-line.ts";
import { misfitPath, misfitWords } from "../record/integrity/words.ts";
import { bounded, MOST, type Problem } from "../record/problem.ts";
import { findingOf } from "./examine-log.ts";

/** What is said of a backup, as JSON. */
export type CheckedBackup = { readonly problems: readonly Problem[] } & (
  | { readonly backup: { readonly locked: true } }
  | {
      readonly backup: {
        readonly locked: false;
        /** ISO 8601; null where its first line cannot be read. */
        readonly madeAt: string | null;
        /** Sound lines of each kind. */
        readonly counts: Counts;
      };
    }
);

/** Checks a backup; null where the file is none, or cannot be read. A locked one is checked as far as can be without its passphrase. */
export async function checkedBackup(file: string): Promise<CheckedBackup | null> {
  const start = await startOf(file);
  const kind = start && backupKind(start);
  if (!kind) return null;
  if (kind !== "locked") return checkedLines(file, kind);
  const read = readLockedHead(start);
  if (!read.ok) return { backup: { locked: true }, problems: read.problems };
  const cut = cutProblem(read.line, (await stat(file)).size);
  return { backup: { locked: true }, problems: cut ? [cut] : [] };
}

async function startOf(file: string): Promise<Uint8Array | null> {
  try {
    const handle = await open(file);
    try {
      const { bytesRead, buffer } = await handle.read(new Uint8Array(LONGEST_HEAD), 0, LONGEST_HEAD, 0);
      return buffer.subarray(0, bytesRead);
    } finally {
      await handle.close();
    }
  } catch {
    return null;
  }
}

async function checkedLines(file: string, kind: Exclude<BackupKind, "locked">): Promise<CheckedBackup> {
  const pieces: AsyncIterable<Uint8Array> = createReadStream(file);
  const lines = boundedLines(kind === "packed" ? unpacked(pieces) : pieces, BACKUP_LIMITS);
  const reading = readBackup(lines, sha256, reasonOf);
  const problems: Problem[] = [];
  let next = await reading.next();
  for (; !next.done; next = await reading.next()) {
    const read = next.value;
    // More than that are counted by what is found at the end.
    if (problems.length > MOST) continue;
    const inLine = read.kind === "damage" ? read.damage.problems : await misfitsOf(read.item);
    problems.push(...inLine.map((problem) => placed(read.line, problem)));
  }
  const found: Found = next.value;
  return {
    backup: { locked: false, madeAt: found.head?.madeAt ?? null, counts: found.counts },
    problems: bounded([...found.problems, ...problems]),
  };
}

/** Where the log of a visit does not fit what it is checked by. */
async function misfitsOf(item: Item): Promise<readonly Problem[]> {
  if (item.kind !== "visit" && item.kind !== "office-visit") return [];
  const { visit } = item;
  const finding = await findingOf(visit);
  if (finding.kind !== "altered") return [];
  return finding.misfits.map((misfit) => ({
    path: `bundle.${misfitPath(misfit)}`,
    message: misfitWords(visit, misfit),
  }));
}

function placed(line: number, { path, message }: Problem): Problem {
  return { path: path === "" ? `line ${line}` : `line ${line}: ${path}`, message };
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message.replace(/\.$/, "") : String(error);
}
