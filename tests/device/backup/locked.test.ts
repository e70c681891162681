import { createDecipheriv, pbkdf2Sync } from "node:crypto";
import { describe, expect, test } from "vitest";
import { keyOf, locked, randomBase64, unlocked } from "../../../src/device/backup/locked.ts";
import { base64Of, bytesOf } from "../../../src/device/base64.ts";
import { type LockedHead, lockedHead, PIECE, TAG } from "../../../src/record/backup/locked.ts";
import { each, joined } from "../../record/backup/backup.ts";

const PASSPHRASE = "four words of mine";
const LINE_END = 10;

/** Cheap, for what is not about the cost. */
const cheap = (head: LockedHead): LockedHead => ({ ...head, kdf: { ...head.kdf, iterations: 2 } });
const fresh = () => cheap(lockedHead(randomBase64(16), randomBase64(7)));

const lock = async (clear: Uint8Array, head: LockedHead, passphrase = PASSPHRASE) =>
  joined(locked(each([clear]), await keyOf(passphrase, head), head));

async function unlock(file: Uint8Array, head: LockedHead, passphrase = PASSPHRASE): Promise<Buffer> {
  const end = file.indexOf(LINE_END);
  const pieces = unlocked(
    each([file.subarray(end + 1)]),
    await keyOf(passphrase, head),
    head,
    file.subarray(0, end),
  );
  return joined(pieces);
}

/** The same by Node's own crypto and by what the head says, piece by piece: independent of Web Crypto and of the code above. */
function openedByNode(file: Buffer, keyBytes: (head: LockedHead) => Buffer): Buffer {
  const end = file.indexOf(LINE_END);
  const line = file.subarray(0, end);
  const head: LockedHead = JSON.parse(line.toString("utf8"));
  const size = head.cipher.piece + 16;
  const body = file.subarray(end + 1);
  const count = Math.ceil(body.length / size);
  return Buffer.concat(
    Array.from({ length: count }, (_, number) => {
      const piece = body.subarray(number * size, (number + 1) * size);
      const nonce = Buffer.alloc(12);
      Buffer.from(head.cipher.prefix, "base64").copy(nonce);
      nonce.writeUInt32BE(number, 7);
      nonce[11] = number === count - 1 ? 1 : 0;
      const decipher = createDecipheriv("aes-256-gcm", keyBytes(head), nonce, { authTagLength: 16 });
      decipher.setAAD(line);
      decipher.setAuthTag(piece.subarray(-16));
      return Buffer.concat([decipher.update(piece.subarray(0, -16)), decipher.final()]);
    }),
  );
}

const clearOf = (size: number) =>
  Uint8Array.from({ length: size }, (_, place) => (place * 7 + (place >> 8)) % 256);

test.each([0, 1, PIECE - 1, PIECE, PIECE + 1, 2 * PIECE, 2 * PIECE + 77])(
  "%i bytes are locked and unlocked, and Node's crypto reads them too",
  async (size) => {
    const clear = clearOf(size);
    const head = fresh();
    const file = await lock(clear, head);
    const pieces = Math.max(1, Math.ceil(size / PIECE));
    expect(file.length).toBe(JSON.stringify(head).length + 1 + size + pieces * TAG);
    expect((await unlock(file, head)).equals(clear)).toBe(true);
    const { kdf } = head;
    const key = pbkdf2Sync(PASSPHRASE, Buffer.from(kdf.salt, "base64"), kdf.iterations, 32, "sha256");
    expect(openedByNode(file, () => key).equals(clear)).toBe(true);
  },
);

test("at its full cost Node derives the same key", async () => {
  const head = lockedHead(randomBase64(16), randomBase64(7));
  const file = await lock(clearOf(5), head, "Größe 42, naïve");
  const key = pbkdf2Sync("Größe 42, naïve", Buffer.from(head.kdf.salt, "base64"), 600_000, 32, "sha256");
  expect(openedByNode(file, () => key).equals(clearOf(5))).toBe(true);
});

// RFC 7914, section 11, "Test Vectors for PBKDF2 with HMAC-SHA-256": the first 32 of 64 bytes, which are those of a 32-byte key
// (RFC 8018, 5.2: blocks are put behind each other).
test.each([
  ["passwd", "salt", 1, "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc"],
  ["Password", "NaCl", 80_000, "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56"],
])("the key of %j and %j after %i rounds is the published one", async (passphrase, salt, iterations, hex) => {
  const head = lockedHead(base64Of(Buffer.from(salt)), randomBase64(7));
  const given = { ...head, kdf: { ...head.kdf, iterations } };
  const file = await lock(clearOf(100), given, passphrase);
  expect(openedByNode(file, () => Buffer.from(hex, "hex")).equals(clearOf(100))).toBe(true);
});

describe("refuses", () => {
  const SIZE = 2 * PIECE + 100;
  const START = JSON.stringify(fresh()).length + 1;
  const STEP = PIECE + TAG;
  const alike = /the passphrase is not the one of this file, or the file was changed/;
  const piece = (file: Buffer, number: number) =>
    file.subarray(START + number * STEP, START + (number + 1) * STEP);
  const flipped = (file: Buffer, at: number) => {
    const changed = Buffer.from(file);
    changed.writeUInt8(changed.readUInt8(at) ^ 1, at);
    return changed;
  };

  test.each<readonly [string, (file: Buffer) => Buffer, RegExp]>([
    ["a changed first piece", (file) => flipped(file, START + 9), alike],
    ["a changed later piece", (file) => flipped(file, START + STEP + 9), /piece 2 .* cut or changed/],
    ["a changed tag", (file) => flipped(file, file.length - 1), /piece 3 /],
    ["a cut inside a piece", (file) => file.subarray(0, -20), /piece 3 /],
    ["a cut between pieces", (file) => file.subarray(0, START + 2 * STEP), /piece 2 /],
    ["a cut right behind the head", (file) => file.subarray(0, START), alike],
    [
      "pieces in each other's place",
      (file) => Buffer.concat([file.subarray(0, START), piece(file, 1), piece(file, 0), piece(file, 2)]),
      alike,
    ],
    [
      "a piece twice",
      (file) => Buffer.concat([file.subarray(0, START + STEP), file.subarray(START)]),
      /piece 2 /,
    ],
    ["something behind the end", (file) => Buffer.concat([file, Buffer.from("more")]), /piece 3 /],
    [
      "a changed head",
      (file) => Buffer.from(file.toString("latin1").replace('"hash":', '"hash" :'), "latin1"),
      alike,
    ],
  ])("%s", async (_, harm, message) => {
    const head = fresh();
    await expect(unlock(harm(await lock(clearOf(SIZE), head)), head)).rejects.toThrow(message);
  });

  test("another passphrase, however near", async () => {
    const head = fresh();
    const file = await lock(clearOf(10), head);
    for (const wrong of ["four words of mime", "Four words of mine", "four words of mine ", ""])
      await expect(unlock(file, head, wrong)).rejects.toThrow(alike);
  });

  test("the same passphrase with another salt", async () => {
    const head = fresh();
    const file = await lock(clearOf(10), head);
    const other = { ...head, kdf: { ...head.kdf, salt: randomBase64(16) } };
    await expect(unlock(file, other)).rejects.toThrow(alike);
  });

  test("and gives what came before the changed piece", async () => {
    const head = fresh();
    const file = flipped(await lock(clearOf(SIZE), head), START + STEP + 9);
    const pieces = unlocked(
      each([file.subarray(START)]),
      await keyOf(PASSPHRASE, head),
      head,
      file.subarray(0, START - 1),
    );
    const { value } = await pieces.next();
    expect(Buffer.from(value ?? []).equals(clearOf(SIZE).subarray(0, PIECE))).toBe(true);
    await expect(pieces.next()).rejects.toThrow(/piece 2 /);
  });
});

test("two backups share neither salt nor nonce, and the key stays in the browser", async () => {
  const [one, other] = [fresh(), fresh()];
  expect([one.kdf.salt, one.cipher.prefix]).not.toEqual([other.kdf.salt, other.cipher.prefix]);
  expect((await keyOf(PASSPHRASE, one)).extractable).toBe(false);
});

test("base64 is Node's, at any length", () => {
  for (const size of [0, 1, 2, 3, 0x6000 - 1, 0x6000, 0x6001, 100_000]) {
    const bytes = clearOf(size);
    expect(base64Of(bytes)).toBe(Buffer.from(bytes).toString("base64"));
    expect(Buffer.from(bytesOf(base64Of(bytes))).equals(bytes)).toBe(true);
  }
});
