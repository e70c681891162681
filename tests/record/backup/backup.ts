import { createHash } from "node:crypto";
import { keyOf, locked, randomBase64 } from "../../../src/device/backup/locked.ts";
import { packed } from "../../../src/device/backup/packed.ts";
import { BACKUP_LIMITS } from "../../../src/record/backup/limits.ts";
import { type Content, type Counts, type Head, NONE } from "../../../src/record/backup/line.ts";
import { lockedHead } from "../../../src/record/backup/locked.ts";
import { type Found, type Read, readBackup } from "../../../src/record/backup/read.ts";
import { backupLines } from "../../../src/record/backup/write.ts";
import { bundleOf } from "../../../src/record/bundle.ts";
import { SHEET, VISIT } from "../visit.ts";

/** Node's own, as against the platform's that the app uses. */
export const sha256 = async (text: string) => createHash("sha256").update(text, "utf8").digest("base64url");

export const MADE_AT = "2026-11-26T14:02:00.000Z";

const json = (value: unknown) => JSON.parse(JSON.stringify(value));

/** One of everything. */
export const CONTENTS: readonly Content[] = [
  { kind: "settings", settings: { units: "si", technician: "I. Nvented" } },
  { kind: "sheet", sheet: json(SHEET) },
  { kind: "visit", bundle: json(bundleOf(VISIT)) },
  {
    kind: "clip",
    visitId: "v1",
    seq: 0,
    at: "2026-11-25T09:00:00.000Z",
    type: "audio/ogg; codecs=opus",
    speaker: "voice-1",
    data: "T2dnUw==",
  },
  { kind: "visit", bundle: json(bundleOf({ ...VISIT, head: { ...VISIT.head, id: "v2", title: "Second" } })) },
  { kind: "office-visit", file: "from-a-van.json", bundle: json(bundleOf(VISIT)) },
  { kind: "office-done", key: "v1:n1:0", visitId: "v1", at: MADE_AT, by: "Office" },
];

export const COUNTS: Counts = { visits: 2, sheets: 1, clips: 1, officeVisits: 1, officeDone: 1 };

export const head = (counts: Counts = NONE): Head => ({
  kind: "head",
  format: "burnerside-backup/1",
  madeAt: MADE_AT,
  program: "Burnerside test",
  counts,
});

export async function* each<T>(values: Iterable<T>): AsyncGenerator<T> {
  yield* values;
}

/** The lines of a backup, each with its newline. */
export async function linesOf(
  contents: readonly Content[] = CONTENTS,
  missing: readonly string[] = [],
): Promise<string[]> {
  const lines: string[] = [];
  const written = backupLines(head(COUNTS), { each: each(contents), missing: () => missing }, sha256);
  for await (const line of written) lines.push(line);
  return lines;
}

export async function joined(pieces: AsyncIterable<Uint8Array>): Promise<Buffer> {
  const all: Uint8Array[] = [];
  for await (const piece of pieces) all.push(piece);
  return Buffer.concat(all);
}

/** Lines as the file that they are handed over as. */
export const packedFile = (lines: readonly string[]) => joined(packed(each(lines), BACKUP_LIMITS.total));

/** The same, locked. */
export async function lockedFile(lines: readonly string[], passphrase: string): Promise<Buffer> {
  const head = lockedHead(randomBase64(16), randomBase64(7));
  return joined(locked(each([await packedFile(lines)]), await keyOf(passphrase, head), head));
}

/** What is read from lines, and what was found of them as a whole. */
export async function readAll(
  lines: AsyncIterable<Uint8Array> | readonly string[],
): Promise<{ reads: Read[]; found: Found }> {
  const bytes = Array.isArray(lines)
    ? each(lines.map((line) => new TextEncoder().encode(line.replace(/\n$/, ""))))
    : (lines as AsyncIterable<Uint8Array>);
  const reading = readBackup(bytes, sha256, (error) => (error instanceof Error ? error.message : "?"));
  const reads: Read[] = [];
  for (;;) {
    const { done, value } = await reading.next();
    if (done) return { reads, found: value };
    reads.push(value);
  }
}
