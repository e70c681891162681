import { describe, expect, test } from "vitest";
import { backupKind, backupName } from "../../../src/record/backup/kind.ts";
import {
  cutProblem,
  lockedHead,
  normalised,
  PIECE,
  passphraseProblem,
  readLockedHead,
  TAG,
} from "../../../src/record/backup/locked.ts";
import { edited } from "../edit.ts";
import { linesOf } from "./backup.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const HEAD = lockedHead("AAAAAAAAAAAAAAAAAAAAAA==", "AAAAAAAAAA==");
const read = (value: unknown) => readLockedHead(bytes(`${JSON.stringify(value)}\n…`));

test("a head is read", () => {
  expect(read(HEAD)).toMatchObject({ ok: true, head: HEAD, line: bytes(JSON.stringify(HEAD)) });
});

test("the cost that is written is the one of OWASP's Password Storage Cheat Sheet", () => {
  expect(HEAD.kdf).toMatchObject({ name: "PBKDF2", hash: "SHA-256", iterations: 600_000 });
});

test.each<readonly [string, unknown]>([
  ["kdf.iterations", 1],
  ["kdf.iterations", 599_999],
  ["kdf.iterations", 6_000_001],
  ["kdf.iterations", 2 ** 40],
  ["kdf.iterations", 600_000.5],
  ["kdf.hash", "SHA-1"],
  ["kdf.name", "scrypt"],
  ["kdf.salt", "AAAA"],
  ["kdf.salt", "no base64 at all!!!!!!=="],
  ["cipher.name", "AES-CBC"],
  ["cipher.bits", 128],
  ["cipher.piece", 1],
  ["cipher.prefix", ""],
  ["format", "burnerside-backup-locked/2"],
  ["more", true],
])("a head with %s = %j is refused", (path, value) => {
  const result = read(edited(HEAD, path, value));
  expect(result).toMatchObject({ ok: false, problems: [{ message: expect.stringMatching(/^Expected /) }] });
});

test.each([
  ["no newline", bytes("x".repeat(2000))],
  ["no JSON", bytes("{\n")],
  ["no text", new Uint8Array([0xff, 0xff, 10])],
  ["nothing", new Uint8Array()],
])("a head that is %s is refused", (_, start) => {
  expect(readLockedHead(start).ok).toBe(false);
});

test.each([
  [0, true],
  [TAG - 1, true],
  [TAG, false],
  [PIECE + TAG, false],
  [PIECE + TAG + 1, true],
  [PIECE + TAG + TAG, false],
])("%i bytes behind the head: cut %s", (size, isCut) => {
  expect(cutProblem(bytes("head"), 5 + size) !== null).toBe(isCut);
});

describe("what a file is", () => {
  test.each<readonly [string, Uint8Array, string | null]>([
    ["gzip", new Uint8Array([0x1f, 0x8b, 8, 0]), "packed"],
    ["a locked backup", bytes(JSON.stringify(HEAD)), "locked"],
    ["a locked backup of a later version", bytes('{"format":"burnerside-backup-locked/9"'), "locked"],
    ["a visit", bytes('{"format":"burnerside-visit/1"'), null],
    ["another packed file", new Uint8Array([0x50, 0x4b, 3, 4]), null],
    ["nothing", new Uint8Array(), null],
  ])("%s", (_, start, kind) => {
    expect(backupKind(start)).toBe(kind);
  });

  test("plain lines, also with a byte order mark", async () => {
    const [head = ""] = await linesOf();
    expect([backupKind(bytes(head)), backupKind(bytes(`\uFEFF${head}`))]).toEqual(["plain", "plain"]);
  });
});

test("its name says what it is", () => {
  expect(backupName("2026-11-26", false)).toBe("burnerside-backup-2026-11-26.jsonl.gz");
  expect(backupName("2026-11-26", true)).toBe("burnerside-backup-2026-11-26.jsonl.gz.locked");
});

describe("passphrases", () => {
  test.each<readonly [string, string, RegExp | null]>([
    ["seven77", "seven77", /at least 8/],
    ["eight888", "eight888", null],
    // Counted as people do: eight faces are sixteen UTF-16 units.
    ["🙂🙂🙂🙂🙂🙂🙂", "🙂🙂🙂🙂🙂🙂🙂", /at least 8/],
    ["four words of mine", "four words of mime", /not the same/],
    ["x".repeat(1024), "x".repeat(1024), null],
    ["x".repeat(1025), "x".repeat(1025), /at most/],
    // e with an accent as one sign, and as two: keyboards differ.
    ["caf\u00e9 au lait", "cafe\u0301 au lait", null],
  ])("%j and %j", (passphrase, again, problem) => {
    const found = passphraseProblem(passphrase, again);
    if (problem) expect(found).toMatch(problem);
    else expect(found).toBeNull();
  });

  // Unicode Standard Annex #15: NFKC composes, and takes wide letters and the fi ligature apart.
  test.each([
    ["cafe\u0301", "caf\u00e9"],
    ["\uff21\uff22", "AB"],
    ["\ufb01re", "fire"],
    ["a\u00a0b", "a b"],
  ])("%j is %j", (typed, used) => {
    expect(normalised(typed)).toBe(used);
  });
});
