import { describe, expect, test } from "vitest";
import { COUNTS, linesOf, lockedFile, MADE_AT, packedFile } from "../record/backup/backup.ts";
import { VISIT } from "../record/visit.ts";
import { cli } from "../support/cli.ts";
import { testFolder } from "../support/folder.ts";

const { file } = testFolder();

async function checked(name: string, bytes: Uint8Array | string) {
  const { status, rows, err } = await cli(["check", file(name, bytes)]);
  return { status, row: rows[0], said: err };
}

const open = { locked: false, madeAt: MADE_AT, counts: COUNTS };

describe("check of a backup", () => {
  test("that is whole, packed or as plain lines", async () => {
    const lines = await linesOf();
    for (const bytes of [await packedFile(lines), lines.join("")])
      expect(await checked("whole.jsonl.gz", bytes)).toMatchObject({
        status: 0,
        row: { ok: true, problems: [], backup: open },
        said: "",
      });
  });

  test("that is damaged tells the line, and all that is wrong", async () => {
    const lines = (await linesOf()).map((line) => line.replace('"title":"Second"', '"title":"Third"'));
    expect(await checked("damaged.jsonl", lines.slice(0, -1).join(""))).toMatchObject({
      status: 1,
      row: {
        ok: false,
        backup: { ...open, counts: { ...COUNTS, visits: 1 } },
        problems: [
          { path: "", message: "Expected the last line of a backup, found none: the file was cut short." },
          { path: "line 6: sha256", message: "Expected the line as it was written, found a changed one." },
        ],
      },
    });
  });

  test("with a visit whose log was altered before it was made", async () => {
    const integrity = { links: VISIT.entries.map(() => "A".repeat(43)), signatures: [] };
    const lines = await linesOf([
      { kind: "visit", bundle: JSON.parse(JSON.stringify({ ...VISIT, integrity })) },
    ]);
    const { status, row } = await checked("altered.jsonl", lines.join(""));
    expect(status).toBe(1);
    expect((row as { problems: { path: string }[] }).problems.map(({ path }) => path)).toEqual([
      "line 2: bundle.integrity.links",
      "line 2: bundle.head",
      ...[0, 1, 2].map((place) => `line 2: bundle.entries[${place}]`),
    ]);
  });

  test("that is locked: what can be told without its passphrase", async () => {
    const { status, row, said } = await checked("a.locked", await lockedFile(await linesOf(), "four words"));
    expect([status, row]).toMatchObject([0, { ok: true, problems: [], backup: { locked: true } }]);
    expect(said).toMatch(
      /a\.locked: a locked backup, in order as far as can be told without its passphrase\.\n$/,
    );
  });

  test.each<readonly [string, (bytes: Buffer) => Buffer, RegExp]>([
    ["cut", (bytes) => bytes.subarray(0, bytes.indexOf(10) + 8), /found a cut one/],
    [
      "of another version",
      (bytes) => Buffer.from(bytes.toString("latin1").replace("locked/1", "locked/2"), "latin1"),
      /"burnerside-backup-locked\/1", found "burnerside-backup-locked\/2"/,
    ],
    [
      "too weak",
      (bytes) => Buffer.from(bytes.toString("latin1").replace("600000", "1"), "latin1"),
      /at least 600000, found 1/,
    ],
    [
      "that would take hours",
      (bytes) => Buffer.from(bytes.toString("latin1").replace("600000", "999999999"), "latin1"),
      /at most 6000000, found 999999999/,
    ],
  ])("a locked one %s", async (_, harm, message) => {
    const { status, row } = await checked(
      "bad.locked",
      harm(await lockedFile(await linesOf(), "four words")),
    );
    expect([status, row]).toMatchObject([
      1,
      { ok: false, problems: [{ message: expect.stringMatching(message) }] },
    ]);
  });

  test("gzip of something else", async () => {
    expect(await checked("else.gz", await packedFile(["hello\n"]))).toMatchObject({
      status: 1,
      row: { ok: false },
    });
  });
});
