import { describe, expect, test } from "vitest";
import type { Finding, Misfit, Signed } from "../../../src/record/integrity/finding.ts";
import { UNLINKED } from "../../../src/record/integrity/finding.ts";
import { logLine, logWords, misfitPath } from "../../../src/record/integrity/words.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { VISIT } from "../visit.ts";

/** The example of RFC 7638, and another. */
const KEY = "NzbLsXh8uDCcd-6MNwXF4W_7noWXFZAfHkxZsRGC9Xs";
const OTHER = "AAAAsXh8uDCcd-6MNwXF4W_7noWXFZAfHkxZsRGC9Xs";
const BY_KEY = "with key 3736 CBB1 787C B830 9C77 on 26 Nov 2026, 11:00 by its device's clock";
const BY_OTHER = BY_KEY.replace("3736 CBB1", "0000 00B1");

const signed = (entries: number, key = KEY): Signed => ({ key, entries, at: "2026-11-26T10:00:00Z" });

function whole(signatures: readonly Signed[], takenIn = 0, entries = 4): Finding {
  const signedEntries = Math.max(...signatures.map((one) => one.entries));
  const kind = signedEntries === entries ? "whole" : "in-part";
  return { kind, signed: signatures, signedEntries, entries, takenIn };
}

const told = (finding: Finding | null, visit: Visit = VISIT, trouble: string | null = null) =>
  logWords(visit, { finding, trouble });

const FINISHED: Visit = {
  ...VISIT,
  entries: VISIT.entries.map((entry) =>
    entry.seq === 3 ? { ...entry, body: { kind: "mark", mark: "finished" } } : entry,
  ),
};

describe("whole, or signed in part", () => {
  test.each<[what: string, finding: Finding, sentences: string[]]>([
    ["to its end", whole([signed(4)]), [`Signed up to its last entry, entry 4, ${BY_KEY}.`]],
    [
      "gone on with",
      whole([signed(3)]),
      [`Signed up to entry 3 of 4 ${BY_KEY}.`, "One entry after that is not signed."],
    ],
    [
      "gone on with for long",
      whole([signed(2)]),
      [`Signed up to entry 2 of 4 ${BY_KEY}.`, "2 entries after that are not signed."],
    ],
    [
      "by two devices, once and again",
      whole([signed(1), signed(2), signed(4, OTHER)]),
      [`Signed up to its last entry, entry 4, ${BY_OTHER}.`, `Signed up to entry 2 of 4 ${BY_KEY}.`],
    ],
    [
      "all of it from a file",
      whole([signed(4)], 4),
      [
        `Signed up to its last entry, entry 4, ${BY_KEY}.`,
        "All that is signed came in a file, or from an older version: no device that signed saw it being made.",
      ],
    ],
    [
      "some of it from a file",
      whole([signed(4)], 3),
      [
        `Signed up to its last entry, entry 4, ${BY_KEY}.`,
        "3 entries of it came in a file, or from an older version: no device that signed saw them being made.",
      ],
    ],
    [
      "one of it from a file",
      whole([signed(4)], 1),
      [
        `Signed up to its last entry, entry 4, ${BY_KEY}.`,
        "One entry of it came in a file, or from an older version: no device that signed saw it being made.",
      ],
    ],
  ])("%s", (_, finding, sentences) => {
    const verdict = finding.kind === "in-part" ? "signed in part" : "whole";
    expect(told(finding)).toEqual({ verdict, sentences });
  });

  test("more keys than anybody reads are counted", () => {
    const keys = ["A", "B", "C", "D", "E", "F"].map((sign) => signed(4, sign.repeat(43)));
    const { sentences } = told(whole(keys));
    expect([sentences.length, sentences.at(-1)]).toEqual([5, "And with 2 more keys."]);
  });

  test("at a place whose zone is not known: UTC", () =>
    expect(
      told(whole([signed(4)]), { ...VISIT, head: { ...VISIT.head, zone: null } }).sentences[0],
    ).toContain("on 26 Nov 2026, 10:00 UTC by its device's clock"));
});

describe("altered: every misfit in one sentence, with its place in the bundle", () => {
  const length = (links: number, entries: number): Misfit => ({ kind: "length", links, entries });
  const between = (from: number, to: number): Misfit => ({ kind: "between", from, to, signed: signed(4) });
  test.each<[path: string, misfit: Misfit, sentence: string]>([
    [
      "head",
      { kind: "head" },
      "What the visit began with (its title, time, gas, units or limits sheet) is not as it was logged.",
    ],
    ["entries[1]", { kind: "entry", seq: 1 }, "Entry 2 (“as said”) is not as it was logged."],
    ["integrity.links", length(4, 3), "3 entries are here, but 4 were linked: some were taken away."],
    [
      "integrity.links",
      length(1, 4),
      "4 entries are here, but 1 was linked: some were put in, or their links taken away.",
    ],
    [
      "integrity.links",
      length(-1, 0),
      "No entry is here, but none was linked: some were put in, or their links taken away.",
    ],
    [
      "entries",
      between(0, 4),
      `Something in entries 1 to 4, or in what the visit began with, was changed after it was signed ${BY_KEY}, and its check sums made anew.`,
    ],
    [
      "entries",
      between(2, 4),
      `Something in entries 3 to 4 was changed after it was signed ${BY_KEY}, and its check sums made anew.`,
    ],
    [
      "entries",
      between(3, 4),
      `Something in entry 4 (“as said”) was changed after it was signed ${BY_KEY}, and its check sums made anew.`,
    ],
    [
      "entries",
      between(0, 0),
      `Something in what the visit began with was changed after it was signed ${BY_KEY}, and its check sums made anew.`,
    ],
    [
      "entries",
      { kind: "cut", entries: 3, signed: signed(4) },
      `The end is missing: 4 entries were signed ${BY_KEY}, and 3 are here.`,
    ],
    [
      "integrity.signatures[0]",
      { kind: "signature", number: 0, why: "not-valid" },
      "Signature 1 is not valid: it was not made with the key that it names, or was changed.",
    ],
    [
      "integrity.signatures[1]",
      { kind: "signature", number: 1, why: "no-statement" },
      "Signature 2 is of something else than a visit's log.",
    ],
    [
      "integrity.signatures[2]",
      { kind: "signature", number: 2, why: "other-visit" },
      "Signature 3 is of another visit.",
    ],
  ])("%s: %j", (path, misfit, sentence) => {
    expect(told({ kind: "altered", misfits: [misfit] })).toEqual({
      verdict: "altered",
      sentences: [sentence],
    });
    expect(misfitPath(misfit)).toBe(path);
  });

  test("entries that follow one another are told together", () =>
    expect(
      told({ kind: "altered", misfits: [0, 1, 2, 5].map((seq) => ({ kind: "entry", seq })) }).sentences,
    ).toEqual(["Entries 1 to 3 are not as they were logged.", "Entry 6 is not as it was logged."]));

  test("of more places than anybody reads the rest is counted", () => {
    const misfits = Array.from({ length: 30 }, (_, i): Misfit => ({ kind: "entry", seq: 2 * i }));
    const { sentences } = told({ kind: "altered", misfits });
    expect([sentences.length, sentences.at(-1)]).toEqual([12, "And 19 more places do not fit."]);
  });

  test("an entry's words are short and steer nothing", () => {
    const [first, ...others] = VISIT.entries;
    if (!first) throw new Error("No entry.");
    const entries = [{ ...first, said: `\u202Egood\n${"x".repeat(100)}` }, ...others];
    expect(
      told({ kind: "altered", misfits: [{ kind: "entry", seq: 0 }] }, { ...VISIT, entries }).sentences,
    ).toEqual([`Entry 1 (“□good ${"x".repeat(33)}…”) is not as it was logged.`]);
  });
});

describe("unsigned", () => {
  test.each<[what: string, finding: Finding, visit: Visit, trouble: string | null, sentences: string[]]>([
    [
      "never linked",
      UNLINKED,
      VISIT,
      null,
      ["Nobody signed it, and it holds nothing to check it by: whether it was changed cannot be told."],
    ],
    [
      "not finished",
      { kind: "unsigned", linked: true },
      VISIT,
      null,
      [
        "Not signed: a visit is signed once it is finished. Its check sums fit, which rules out slips, not forgery.",
      ],
    ],
    [
      "finished, and not to be signed here",
      { kind: "unsigned", linked: true },
      FINISHED,
      "no keys in a private window",
      [
        "Nobody signed it. Its check sums fit, which rules out slips, not forgery.",
        "It could not be signed: no keys in a private window.",
      ],
    ],
  ])("%s", (_, finding, visit, trouble, sentences) =>
    expect(told(finding, visit, trouble)).toEqual({ verdict: "unsigned", sentences }),
  );
});

test("what could not be examined is none of the three", () =>
  expect(told(null, VISIT, "no cryptography here")).toEqual({
    verdict: "not examined",
    sentences: ["Its log could not be examined: no cryptography here."],
  }));

test.each<[finding: Finding | null, line: string]>([
  [whole([signed(4)]), `Its log is whole: signed up to its last entry, entry 4, ${BY_KEY}.`],
  [
    { kind: "altered", misfits: [{ kind: "entry", seq: 3 }, { kind: "head" }] },
    "Its log is altered: entry 4 (“as said”) is not as it was logged. What the visit began with (its title, time, gas, units or limits sheet) is not as it was logged.",
  ],
  [
    UNLINKED,
    "Its log is unsigned: nobody signed it, and it holds nothing to check it by: whether it was changed cannot be told.",
  ],
  [null, "Its log could not be examined: no network."],
])("one line: %j", (finding, line) =>
  expect(logLine(told(finding, VISIT, finding === null ? "no network" : null))).toBe(line),
);
