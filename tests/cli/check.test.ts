import { readdirSync, readFileSync } from "node:fs";
import { truncate } from "node:fs/promises";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { cli } from "../support/cli.ts";
import { ALTERED, bundleIn, DEMO, SIGNED } from "../support/demo-signed.ts";
import { testFolder } from "../support/folder.ts";

// The verb as others use it: a process, its lines, its status.

const Line = z.strictObject({
  file: z.string(),
  ok: z.boolean(),
  problems: z.array(z.strictObject({ path: z.string(), message: z.string() })),
  /** Of bundles only. */
  integrity: z.looseObject({ verdict: z.enum(["whole", "altered", "unsigned"]) }).optional(),
});
type Line = z.infer<typeof Line>;

interface Run {
  readonly status: number | null;
  readonly lines: readonly Line[];
  readonly said: string;
}

async function check(...files: string[]): Promise<Run> {
  const { status, rows, err } = await cli(["check", ...files]);
  return { status, lines: rows.map((row) => Line.parse(row)), said: err };
}

const AWKWARD = "demo-data/awkward";

/** The README's table: what must be said of each file. */
function promised(): Map<string, { path: string; message: string }[]> {
  const table = new Map<string, { path: string; message: string }[]>();
  for (const row of readFileSync(`${AWKWARD}/README.md`, "utf8").split("\n")) {
    const [, file = "", place = "", message = ""] = row.split("|").map((cell) => cell.trim());
    if (!file.endsWith(".json")) continue;
    const problems = table.get(file) ?? [];
    if (message !== "sound") problems.push({ path: place.replace(/^`|`$/g, ""), message });
    table.set(file, problems);
  }
  return table;
}

describe("the awkward files", () => {
  const files = readdirSync(AWKWARD).filter((name) => name.endsWith(".json"));
  const table = promised();
  let run: Run;
  beforeAll(async () => {
    run = await check(...files.map((name) => `${AWKWARD}/${name}`));
  });

  test("are those that their README has", () => {
    expect([...table.keys()].sort()).toEqual([...files].sort());
  });

  test.each(files)("%s gives what its README promises", (name) => {
    const problems = table.get(name) ?? [];
    const line = run.lines.find(({ file }) => file.endsWith(`/${name}`));
    expect(line).toMatchObject({ file: `${AWKWARD}/${name}`, ok: problems.length === 0, problems });
  });

  test("are told in the order given, with status 1 and nothing on standard error", () => {
    expect(run.lines.map(({ file }) => file)).toEqual(files.map((name) => `${AWKWARD}/${name}`));
    expect(run).toMatchObject({ status: 1, said: "" });
  });
});

test("all sheets and bundles of the demo are sound: status 0", async () => {
  const files = ["sheets", "visits"].flatMap((folder) =>
    readdirSync(`demo-data/${folder}`)
      .filter((name) => name.endsWith(".json"))
      .map((name) => `demo-data/${folder}/${name}`),
  );
  expect(files.length).toBeGreaterThan(3);
  const { status, lines } = await check(...files);
  expect(lines).toMatchObject(files.map((file) => ({ file, ok: true, problems: [] })));
  expect(status).toBe(0);
});

describe("what is said of a bundle's log", () => {
  const folder = testFolder();

  test.each<[file: string, integrity: object | undefined]>([
    ["demo-data/sheets/demo-35.json", undefined],
    ["demo-data/awkward/truncated.json", undefined],
    [DEMO, { verdict: "unsigned", linked: false }],
    [
      SIGNED,
      {
        verdict: "whole",
        signed: [
          {
            key: expect.stringMatching(/^[\w-]{43}$/),
            entries: 28,
            at: expect.stringMatching(/^\d{4}-\d\d-\d\dT/),
            // As the record has it.
            fingerprint: expect.stringMatching(/^[\dA-F]{4}( [\dA-F]{4}){4}$/),
          },
        ],
        signedEntries: 28,
        entries: 28,
        takenIn: 0,
      },
    ],
    [ALTERED, { verdict: "altered", misfits: [{ kind: "entry", seq: 3 }] }],
  ])("%s: %j", async (file, integrity) => {
    const { lines } = await check(file);
    expect(lines.map((line) => line.integrity)).toEqual([integrity]);
  });

  test("an altered one is bad, each place in one sentence", async () => {
    const visit = bundleIn(SIGNED);
    const { integrity } = visit;
    const changed = {
      ...visit,
      head: { ...visit.head, title: "Other" },
      entries: visit.entries.slice(0, 27),
      integrity: { ...integrity, signatures: ["e30.e30.e30"] },
    };
    const file = folder.file("changed.json", JSON.stringify(changed));
    const { status, lines } = await check(file);
    expect(status).toBe(1);
    expect(lines[0]?.problems).toEqual([
      { path: "integrity.links", message: "27 entries are here, but 28 were linked: some were taken away." },
      { path: "head", message: expect.stringMatching(/^What the visit began with \(.*\) is not as it was/) },
      { path: "integrity.signatures[0]", message: expect.stringMatching(/^Signature 1 is not valid: /) },
    ]);
  });

  test("its links taken away it is unsigned, which no check can tell from one that never was", async () => {
    const { integrity, ...visit } = bundleIn(SIGNED);
    expect(integrity).toBeDefined();
    const { status, lines } = await check(folder.file("bare.json", JSON.stringify(visit)));
    expect([status, lines[0]?.integrity]).toEqual([0, { verdict: "unsigned", linked: false }]);
  });
});

describe("what cannot be read is a problem, and the rest is still checked", () => {
  const { path: folder, file } = testFolder();

  test("a missing file, a folder, a file too large", async () => {
    const large = file("large.json", "");
    await truncate(large, 32 * 1024 * 1024 + 1);
    const sound = "demo-data/sheets/demo-35.json";
    const { status, lines } = await check(join(folder, "none.json"), folder, large, sound);
    expect(lines.map(({ ok, problems }) => [ok, ...problems.map(({ message }) => message)])).toEqual([
      [false, "Expected a readable file, found none of that name."],
      [false, "Expected a readable file, found a folder."],
      [false, "Expected a visit bundle of at most 32 MiB, found 32.1 MiB."],
      [true],
    ]);
    expect(status).toBe(1);
  });
});

test("without a file it says what it expects", async () => {
  expect(await check()).toEqual({
    status: 2,
    lines: [],
    said: "check: expected at least one file, found none. Usage: check FILE…\n",
  });
});
