import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { logOnImport, readImport, unreadablyLarge } from "../../../src/app/start/import-file.ts";
import { exportVisit } from "../../../src/record/bundle.ts";
import { type Examined, UNLINKED } from "../../../src/record/integrity/finding.ts";
import { reading, visitOf } from "../build.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const sheetText = readFileSync(new URL("../../../demo-data/sheets/demo-35.json", import.meta.url), "utf8");

describe("a sound file is told apart by its format", () => {
  test("a limits sheet", () =>
    expect(readImport("a.json", bytes(sheetText))).toMatchObject({
      kind: "sheet",
      sheet: { id: "demo-35" },
    }));
  test("a visit", () => {
    const visit = visitOf(reading());
    expect(readImport("a.json", bytes(exportVisit(visit)))).toEqual({ kind: "visit", visit });
  });
});

describe("what is said of the log of a visit that was kept", () => {
  const visit = visitOf(reading());
  test.each<[what: string, examined: Examined, log: RegExp[], altered: boolean]>([
    ["unsigned", { finding: UNLINKED, trouble: null }, [/^Its log is unsigned: nobody signed it, /], false],
    [
      "altered",
      { finding: { kind: "altered", misfits: [{ kind: "entry", seq: 0 }] }, trouble: null },
      [/^Its log is altered: entry 1 .* is not as it was logged\.$/, /^The visit was kept as it came, /],
      true,
    ],
    [
      "not examined",
      { finding: null, trouble: "no network" },
      [/^Its log could not be examined: no network\.$/],
      false,
    ],
  ])("%s", (_, examined, log, altered) =>
    expect(logOnImport({ visit, ...examined })).toEqual({
      log: log.map((sentence) => expect.stringMatching(sentence)),
      altered,
    }),
  );
});

describe("a bad file gives one sentence per problem, with file and place", () => {
  const sentences = (content: Uint8Array) => {
    const imported = readImport("mine.json", content);
    return imported.kind === "bad" ? imported.sentences : [];
  };
  const sheet = (change: (raw: { title?: string; closing?: string[] }) => void) => {
    const raw: { title?: string; closing?: string[] } = JSON.parse(sheetText);
    change(raw);
    return bytes(JSON.stringify(raw));
  };

  test("a missing field", () =>
    expect(sentences(sheet((raw) => delete raw.title))).toEqual([
      expect.stringMatching(/^mine\.json, title: /),
    ]));
  test("two at once", () =>
    expect(
      sentences(
        sheet((raw) => {
          delete raw.title;
          raw.closing = ["bell"];
        }),
      ),
    ).toEqual([
      expect.stringMatching(/^mine\.json, title: /),
      expect.stringMatching(/^mine\.json, closing\[0\] \(closing check 1\): /),
    ]));
  test.each<
    [string, (raw: { fuels: { "natural-gas": { high: object } }; settleSeconds: object }) => void, RegExp]
  >([
    [
      "a limit, by the names of its form",
      (raw) => Object.assign(raw.fuels["natural-gas"].high, { co2: { min: "x", unit: "%" } }),
      /^mine\.json, fuels\.natural-gas\.high\.co2\.min \(Natural gas, high fire, CO2, from\): Expected a number, found "x"\.$/,
    ],
    [
      "a time",
      (raw) => Object.assign(raw.settleSeconds, { low: -1 }),
      /^mine\.json, settleSeconds\.low \(Settling, low fire\): /,
    ],
  ])("in words: %s", (_, change, sentence) => {
    const raw = JSON.parse(sheetText);
    change(raw);
    expect(sentences(bytes(JSON.stringify(raw)))).toEqual([expect.stringMatching(sentence)]);
  });
  test("in words: of a visit, and of its sheet", () => {
    const visit = JSON.parse(exportVisit(visitOf(reading())));
    visit.entries[0].confidence = 7;
    visit.head.sheet = { ...JSON.parse(sheetText), settleSeconds: { high: 60, low: -1 } };
    expect(sentences(bytes(JSON.stringify(visit)))).toEqual([
      expect.stringMatching(
        /^mine\.json, head\.sheet\.settleSeconds\.low \(Settling, low fire, in the visit's sheet\): /,
      ),
      expect.stringMatching(/^mine\.json, entries\[0\]\.confidence \(entry 1 of the visit\): /),
    ]);
  });
  test("a torn file has its line and column", () =>
    expect(sentences(bytes(sheetText.slice(0, 200)))[0]).toMatch(/Line \d+, column \d+: /));
  test("no JSON", () => expect(sentences(bytes("{"))).toEqual([expect.stringMatching(/^mine\.json/)]));
  test("another format", () =>
    expect(sentences(bytes('{"format":"picture/1"}'))).toEqual([
      expect.stringMatching(/^mine\.json, format: /),
    ]));
  test("no UTF-8", () =>
    expect(sentences(new Uint8Array([0xff, 0xfe, 0x7b, 0x00]))).toEqual([expect.stringMatching(/UTF-8/)]));
  test("each ends with one full stop", () => {
    for (const text of sentences(sheet((raw) => delete raw.title))) expect(text).toMatch(/[^.]\.$/);
  });
});

test.each([
  [32 * 1024 * 1024, null],
  [4 * 1024 ** 3, "film.json: Expected a visit bundle of at most 32 MiB, found 4096.0 MiB."],
])("a file of %s bytes is not even read where it is too large", (size, sentence) =>
  expect(unreadablyLarge({ name: "film.json", size })).toEqual(
    sentence && { kind: "bad", sentences: [sentence] },
  ),
);
