import { createHash } from "node:crypto";
import { gzipSync } from "node:zlib";
import { boundedLines, unpacked } from "../../../../src/device/backup/packed.ts";
import { backupKind } from "../../../../src/record/backup/kind.ts";
import { BACKUP_LIMITS } from "../../../../src/record/backup/limits.ts";
import { lockedHead, readLockedHead } from "../../../../src/record/backup/locked.ts";
import { isWhole, readBackup } from "../../../../src/record/backup/read.ts";
import { linesOf as backupLines, sha256 } from "../../../record/backup/backup.ts";
import type { Chance } from "../../../support/valve/chance.ts";
import { clearLine, clearProblems, same } from "../expect.ts";
import { brokenJson } from "../json.ts";
import { below, broken, brokenBytes, noise, pick } from "../mutate.ts";
import { Fault, type Target, target, type Verdict } from "../target.ts";

const LINES = await backupLines();
const WHOLE = LINES.join("");
const utf8 = new TextEncoder();

async function* piecesOf(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 777) yield bytes.subarray(at, at + 777);
}

/** What is read of a backup, its lines as they come, and what was found of it as a whole. */
async function readAll(pieces: AsyncIterable<Uint8Array>) {
  const reading = readBackup(boundedLines(pieces, BACKUP_LIMITS), sha256, () => "the packed data is damaged");
  const items: unknown[] = [];
  for (;;) {
    const { done, value } = await reading.next();
    if (done) return { items, found: value };
    if (value.kind === "item") items.push(value.item);
  }
}

const { items: WRITTEN } = await readAll(piecesOf(utf8.encode(WHOLE)));

/** Whatever was done to it: it is whole and what was written, or it is told why not. */
async function readHurt(pieces: AsyncIterable<Uint8Array>, isForged: boolean): Promise<Verdict> {
  const { items, found } = await readAll(pieces);
  for (const { damage } of found.damage) {
    clearProblems(damage.problems);
    if (damage.what !== "") clearLine(damage.what);
  }
  if (found.problems.length > 0) clearProblems(found.problems);
  if (!isWhole(found)) return "refused";
  if (!isForged) same(items, WRITTEN, "told to be whole, but changed");
  return "accepted";
}

/** A line with something else in it, and the digest of that: what comes behind the digest is reached. */
function forged(chance: Chance, line: string): string {
  const body = brokenJson(chance, JSON.parse(line.replace(/,"sha256":"[^"]*"\}\n$/, "}"))).replaceAll(
    "\n",
    "",
  );
  const digest = createHash("sha256").update(body, "utf8").digest("base64url");
  return `${body.slice(0, -1)},"sha256":"${digest}"}\n`;
}

function drawLines(chance: Chance): { readonly text: string; readonly isForged: boolean } {
  const lines = [...LINES];
  const isForged = chance.is(0.6);
  const at = below(chance, lines.length);
  const line = lines[at] ?? "";
  if (isForged) lines[at] = forged(chance, line);
  else
    switch (below(chance, 4)) {
      case 0:
        lines.splice(at, 1);
        break;
      case 1:
        lines.splice(at, 0, pick(chance, lines));
        break;
      case 2:
        lines.reverse();
        break;
    }
  const text = lines.join("");
  return { text: chance.is(isForged ? 0.2 : 0.7) ? broken(chance, text, LINES) : text, isForged };
}

export const BACKUPS: readonly Target[] = [
  target<{ readonly text: string; readonly isForged: boolean }>({
    name: "backup, its lines",
    inputs: 5_000,
    draw: drawLines,
    read: ({ text, isForged }) => readHurt(piecesOf(utf8.encode(text)), isForged),
  }),
  target<Uint8Array>({
    name: "backup, packed",
    inputs: 2_000,
    draw: (chance) => {
      const bytes = gzipSync(chance.is(0.8) ? WHOLE : noise(chance, 2000));
      return chance.is(0.95) ? brokenBytes(chance, bytes) : bytes;
    },
    read: (bytes) => readHurt(unpacked(piecesOf(bytes)), false),
  }),
  target<Uint8Array>({
    name: "backup, locked: its head",
    inputs: 3_000,
    draw: (chance) => {
      const head = lockedHead("AAAAAAAAAAAAAAAAAAAAAA==", "AAAAAAAAAA==");
      const text = chance.is(0.6)
        ? brokenJson(chance, JSON.parse(JSON.stringify(head)))
        : JSON.stringify(head);
      const bytes = utf8.encode(`${text}\n${noise(chance, 40)}`);
      return chance.is(0.4) ? brokenBytes(chance, bytes) : bytes;
    },
    read: (bytes) => {
      backupKind(bytes);
      const read = readLockedHead(bytes);
      if (read.ok && read.head.kdf.iterations < 600_000) throw new Fault("a key that costs too little");
      if (!read.ok) clearProblems(read.problems);
      return read.ok ? "accepted" : "refused";
    },
  }),
];
