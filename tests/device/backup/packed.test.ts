import { gunzipSync, gzipSync } from "node:zlib";
import { beforeAll, describe, expect, test } from "vitest";
import { boundedLines, packed, unpacked } from "../../../src/device/backup/packed.ts";
import { BACKUP_LIMITS } from "../../../src/record/backup/limits.ts";
import { isWhole } from "../../../src/record/backup/read.ts";
import { CONTENTS, each, joined, linesOf, packedFile, readAll } from "../../record/backup/backup.ts";

const lines = (file: Uint8Array, most: { line: number; total: number } = BACKUP_LIMITS) =>
  boundedLines(unpacked(each([file])), most);

/** Some hundred visits, as one packed file. */
async function manyVisits(): Promise<{ file: Buffer; count: number }> {
  const [visit] = CONTENTS.filter(({ kind }) => kind === "visit");
  if (visit?.kind !== "visit") throw new Error("Expected a visit.");
  const text = JSON.stringify(visit.bundle);
  const visits = Array.from({ length: 300 }, (_, number) => ({
    kind: "visit" as const,
    bundle: JSON.parse(text.replaceAll('"v1"', `"v${number}-${Math.sin(number)}"`)),
  }));
  return { file: await packedFile(await linesOf(visits)), count: visits.length };
}

test("what is packed is what Node's zlib unpacks, and the other way", async () => {
  const texts = await linesOf();
  const file = await packedFile(texts);
  expect(gunzipSync(file).toString("utf8")).toBe(texts.join(""));
  expect((await joined(unpacked(each([gzipSync(texts.join(""))])))).toString("utf8")).toBe(texts.join(""));
});

test("a backup comes back through its file", async () => {
  const { found } = await readAll(lines(await packedFile(await linesOf())));
  expect(isWhole(found)).toBe(true);
});

describe("what is whole of a damaged file is given", () => {
  let whole: { file: Buffer; count: number };
  beforeAll(async () => {
    whole = await manyVisits();
  });

  test.each([0.2, 0.5, 0.9, 0.999])("cut at %d of it", async (share) => {
    const { count } = whole;
    const file = Buffer.from(whole.file);
    const { found } = await readAll(lines(file.subarray(0, Math.floor(file.length * share))));
    // At most some lines are lost beside those that are cut off.
    expect(found.counts.visits).toBeGreaterThan(count * share * 0.95 - 20);
    expect(found.counts.visits).toBeLessThan(count);
    expect(found.problems.map(({ message }) => message).join(" ")).toMatch(
      /could not read on after line \d+: .*cut short/,
    );
  });

  test.each([0.3, 0.6])("a byte changed at %d of it", async (share) => {
    const { count } = whole;
    const file = Buffer.from(whole.file);
    const at = Math.floor(file.length * share);
    file.writeUInt8(file.readUInt8(at) ^ 0xff, at);
    const { found } = await readAll(lines(file));
    expect(isWhole(found)).toBe(false);
    expect(found.counts.visits).toBeGreaterThan(count * share * 0.95 - 20);
  });
});

describe("a bomb ends at the limit", () => {
  const many = async (pieces: AsyncIterable<Uint8Array>) => {
    let count = 0;
    for await (const _ of pieces) count += 1;
    return count;
  };

  test("one endless line: 50 MiB in 50 kB", async () => {
    const bomb = gzipSync(Buffer.alloc(50 * 1024 * 1024, 0x61));
    expect(bomb.length).toBeLessThan(55_000);
    await expect(many(lines(bomb))).rejects.toThrow("expected lines of at most 33 MiB, found more");
  });

  test("a great many lines", async () => {
    const bomb = gzipSync(Buffer.alloc(3 * 1024 * 1024, "abc\n"));
    await expect(many(lines(bomb, { line: 10, total: 2 * 1024 * 1024 }))).rejects.toThrow(
      "expected at most 2 MiB, found more",
    );
  });

  test("and so does making one that could not be restored", async () => {
    await expect(joined(packed(each(["abc\n", "abc\n"]), 7))).rejects.toThrow(
      /expected at most .* found more/,
    );
  });

  test("is one sentence to who reads a backup", async () => {
    const { found } = await readAll(lines(gzipSync(Buffer.alloc(34 * 1024 * 1024, 0x61))));
    expect(found.problems).toMatchObject([
      {
        message:
          "Expected the whole file, could not read on after line 0: expected lines of at most 33 MiB, found more.",
      },
      { message: "Expected a backup, found no line of one." },
    ]);
  });
});

test.each<readonly [string[], string[]]>([
  [[], []],
  [["abc"], ["abc"]],
  [
    ["ab", "c\n", "\nd"],
    ["abc", "", "d"],
  ],
])("lines of %j", async (pieces, expected) => {
  const found: string[] = [];
  for await (const line of boundedLines(each(pieces.map((piece) => Buffer.from(piece))), {
    line: 9,
    total: 99,
  }))
    found.push(Buffer.from(line).toString());
  expect(found).toEqual(expected);
});
