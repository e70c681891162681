import { z } from "zod";
import { readJson } from "../json.ts";
import { bounded, type Problem } from "../problem.ts";
import { decodeText } from "../utf8.ts";
import { problemsOf } from "../zod-problems.ts";

export const LOCKED_FORMAT = "burnerside-backup-locked/1";

/** Rounds of PBKDF2-HMAC-SHA256: the figure of OWASP's Password Storage Cheat Sheet ("600,000 iterations"; looked up 2026-11). */
export const ITERATIONS = 600_000;

/** More would keep a slow device at it for minutes: a hostile file must not. */
const MOST_ITERATIONS = 6_000_000;

/** Bytes that are encrypted as one piece. */
export const PIECE = 1024 * 1024;

/** Bytes that AES-GCM adds to each piece: its tag. */
export const TAG = 16;

const base64 = (bytes: number) => {
  const letters = Math.ceil(bytes / 3) * 4;
  return z.base64().length(letters);
};

/**
 * The first line of a locked backup. What follows its newline are pieces of AES-GCM, each of `piece` bytes and the tag, the last
 * one shorter or as long, never longer: STREAM of Hoang, Reyhanitabar, Rogaway and Vizár, "Online Authenticated-Encryption and
 * its Nonce-Reuse Misuse-Resistance" (CRYPTO 2015; from memory). Nonce: `prefix` (7 bytes), the piece's number from 0 (4 bytes,
 * the highest first), 1 for the last piece and 0 for all others (1 byte). Additional data: this line, without its newline.
 * Key: 256 bits of PBKDF2 over the passphrase in NFKC, as UTF-8.
 */
export const LockedHead = z.strictObject({
  format: z.literal(LOCKED_FORMAT),
  kdf: z.strictObject({
    name: z.literal("PBKDF2"),
    hash: z.literal("SHA-256"),
    iterations: z.int().min(ITERATIONS).max(MOST_ITERATIONS),
    salt: base64(16),
  }),
  cipher: z.strictObject({
    name: z.literal("AES-GCM"),
    bits: z.literal(256),
    piece: z.literal(PIECE),
    prefix: base64(7),
  }),
});
export type LockedHead = z.infer<typeof LockedHead>;

/** The head of a backup that is about to be locked. `salt` 16 and `prefix` 7 random bytes, never used before, in base64. */
export function lockedHead(salt: string, prefix: string): LockedHead {
  return {
    format: LOCKED_FORMAT,
    kdf: { name: "PBKDF2", hash: "SHA-256", iterations: ITERATIONS, salt },
    cipher: { name: "AES-GCM", bits: 256, piece: PIECE, prefix },
  };
}

/** Bytes in which the first line of a locked backup ends. */
export const LONGEST_HEAD = 1024;

export type LockedRead =
  | { readonly ok: true; readonly head: LockedHead; readonly line: Uint8Array }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads the head from the first `LONGEST_HEAD` bytes of a file. */
export function readLockedHead(start: Uint8Array): LockedRead {
  const end = start.indexOf(10);
  if (end < 0) return refused(`Expected a first line of at most ${LONGEST_HEAD} bytes, found a longer one.`);
  const line = start.subarray(0, end);
  const decoded = decodeText(line);
  if (!decoded.ok) return decoded;
  const read = readJson(decoded.text);
  if (!read.ok) return { ok: false, problems: read.problems };
  const head = LockedHead.safeParse(read.value);
  if (!head.success) return { ok: false, problems: bounded(problemsOf(head.error.issues, read.value)) };
  return { ok: true, head: head.data, line };
}

/** Whether what is behind the first line can be whole pieces, by the size of the file alone; its bytes only a key can check. */
export function cutProblem(line: Uint8Array, size: number): Problem | null {
  const rest = size - line.length - 1;
  const over = rest % (PIECE + TAG);
  if (rest > 0 && (over === 0 || over >= TAG)) return null;
  return { path: "", message: "Expected whole encrypted pieces, found a cut one: the file was cut short." };
}

function refused(message: string): LockedRead {
  return { ok: false, problems: [{ path: "", message }] };
}

/** Characters of a passphrase, at the least and at the most: the least after NIST SP 800-63B (from memory). */
export const PASSPHRASE = { least: 8, most: 1024, good: 15 } as const;

/** A passphrase as it is used: the same letters whichever keyboard wrote them. */
export function normalised(passphrase: string): string {
  return passphrase.normalize("NFKC");
}

/** Why a passphrase is not taken for a new backup; null where it is. */
export function passphraseProblem(passphrase: string, again: string): string | null {
  const letters = [...normalised(passphrase)].length;
  if (letters < PASSPHRASE.least)
    return `Give at least ${PASSPHRASE.least} characters, or leave both fields empty for a backup that anybody can read.`;
  if (letters > PASSPHRASE.most) return `Give at most ${PASSPHRASE.most} characters.`;
  if (normalised(passphrase) !== normalised(again)) return "The two passphrases are not the same.";
  return null;
}
