import { describe, expect, test } from "vitest";
import type { Reply } from "../../../src/answer/turn.ts";
import { faceOf, fitOf, sizeOf } from "../../../src/app/boiler/face.ts";
import type { Advice, Judgement } from "../../../src/judge/judgement.ts";
import { NOTHING_JUDGED } from "../../support/judged.ts";

const TURN: Advice = {
  action: "turn",
  adjuster: "high",
  turns: -0.5,
  expect: { min: 9, max: 9.4 },
  waitSeconds: 60,
};
const STOP: Advice = { action: "stop", reason: "gas pressure out of limits" };
const CO2 = {
  quantity: "co2",
  firing: "high",
  value: 9.2,
  unit: "%",
  verdict: "pass",
  limit: { min: 8.5, max: 9.5 },
} as const;
const CO = { ...CO2, quantity: "co", value: 40, unit: "[ppm]", limit: { min: null, max: 150 } } as const;
const WARNING = { code: "flue-co-over-limit", text: "Flue CO 400 is over the limit of 150" } as const;

function reply(change: Partial<Judgement> = {}): Reply {
  const judgement = { ...NOTHING_JUDGED, ...change };
  return { answer: "", earcon: "none", headline: "CO2 9.2 %", detail: "", judgement, effect: "none" };
}

describe("the one large thing", () => {
  test.each<[string, Partial<Judgement>, string]>([
    ["what the answer puts first", {}, "plain"],
    ["a reading with its verdict", { verdicts: [CO2] }, "reading"],
    ["a turn before what was read", { advice: TURN }, "turn"],
    ["a stop", { advice: STOP }, "stop"],
    ["a warning before a turn", { advice: TURN, warnings: [WARNING] }, "warning"],
    ["a warning before a stop", { advice: STOP, warnings: [WARNING] }, "warning"],
  ])("%s", (_, judgement, kind) => expect(faceOf(reply(judgement)).large.kind).toBe(kind));

  test("what it took the place of stands under it", () => {
    expect(faceOf(reply({ advice: TURN })).headline).toBe("CO2 9.2 %");
    expect(faceOf(reply()).headline).toBeNull();
    // The verdict below says it already.
    expect(faceOf(reply({ advice: TURN, verdicts: [CO2] })).headline).toBeNull();
    expect(faceOf(reply({ advice: TURN, warnings: [WARNING] })).turnBelow).toEqual({
      adjuster: "high",
      turns: -0.5,
    });
    expect(faceOf(reply({ advice: TURN })).turnBelow).toBeNull();
  });

  test("what is said letter by letter is shown as a formula", () => {
    const warnings = [{ code: "ambient-co-evacuate", text: "Room C O eighty. Leave now." }] as const;
    expect(faceOf(reply({ warnings: [...warnings] })).large).toEqual({
      kind: "warning",
      word: "danger",
      texts: ["Room CO 80. Leave now."],
    });
  });

  test("every warning is shown, in the order of the judgement", () => {
    const second = { code: "left-open", text: "Test port open" } as const;
    expect(faceOf(reply({ warnings: [WARNING, second] })).large).toEqual({
      kind: "warning",
      word: "warning",
      texts: [WARNING.text, second.text],
    });
  });
});

describe("where the headline is the next step", () => {
  const step = (change: Partial<Judgement>) => {
    const { large, headline, detail } = faceOf({
      ...reply(change),
      headline: "Go to low fire",
      detail: "Go to low fire.",
    });
    return [large.kind, "headline" in large ? large.headline : "", headline, detail];
  };
  const go: Advice = { action: "go-to", firing: "low" };
  test.each<[string, Partial<Judgement>, ReturnType<typeof step>]>([
    ["it is large, and said once", { advice: go }, ["plain", "Go to low fire", null, ""]],
    [
      "under a warning at the foot only",
      { advice: go, warnings: [WARNING] },
      ["warning", "", null, "Go to low fire."],
    ],
    [
      "where a turn is drawn it is not told again",
      { advice: TURN },
      ["turn", "", null, "Then wait 60 s. Expect CO2 9 to 9.4 %."],
    ],
    [
      "where a wait runs the ring tells it",
      { advice: { action: "wait", seconds: 9 } },
      ["wait", "Let it settle", null, ""],
    ],
  ])("%s", (_, change, expected) => expect(step(change)).toEqual(expected));
});

test("a reading of another firing than the boiler is in is named with it", () => {
  const { large } = faceOf({ ...reply({ verdicts: [CO2] }), headline: "High fire CO2 9.2 %" });
  expect(large).toMatchObject({
    kind: "reading",
    line: { name: "High fire CO2", value: "9.2 %", word: "In limits" },
  });
});

describe("the line at the foot", () => {
  const detail = (advice: Advice, change: Partial<Judgement> = {}) =>
    faceOf({ ...reply({ advice, ...change }), detail: "What comes next." }).detail;
  test.each<[string, Advice, string]>([
    ["a turn: the wait and what to expect", TURN, "Then wait 60 s. Expect CO2 9 to 9.4 %."],
    ["a wait: nothing, the seconds tick", { action: "wait", seconds: 60 }, ""],
    ["a stop whose reason it is not", STOP, "What comes next."],
    ["all else: what comes next", { action: "go-to", firing: "low" }, "What comes next."],
  ])("%s", (_, advice, text) => expect(detail(advice)).toBe(text));
  test("a stop that the warning explains has none", () =>
    expect(detail(STOP, { warnings: [WARNING] })).toBe(""));
  test("a stop does not say its reason twice", () =>
    expect(detail({ action: "stop", reason: "What comes next." })).toBe(""));
});

describe("a verdict is a word and its limit", () => {
  const line = (verdict: Judgement["verdicts"][number]) => {
    const { large } = faceOf(reply({ verdicts: [verdict] }));
    return large.kind === "reading" ? large.line : null;
  };

  test.each([
    ["pass", "In limits"],
    ["fail", "Out of limits"],
    ["wait", "Too early"],
    ["no-limit", "No limit known"],
  ] as const)("%s: %s", (verdict, word) =>
    expect(line({ ...CO2, verdict })).toEqual({
      verdict,
      name: "CO2",
      value: "9.2 %",
      word,
      limit: "8.5 to 9.5 %",
    }),
  );
  test("no limit known shows none", () =>
    expect(line({ ...CO2, verdict: "no-limit", limit: null })?.limit).toBe(""));
  test("of several, the one that the answer puts first is large and the others stand below", () => {
    const { large, verdicts } = faceOf(reply({ verdicts: [CO, CO2] }));
    expect(large).toMatchObject({ kind: "reading", line: { name: "CO2" } });
    expect(verdicts.map(({ name, limit }) => [name, limit])).toEqual([["CO", "up to 150 ppm"]]);
  });
});

test.each([
  ["9.2 %", "value"],
  ["120 ppm", "value"],
  ["18 mbar", "value"],
  ["Ready", "short"],
  ["1240 ppm", "short"],
  ["CO2 9.2 %", "short"],
  ["CO 1240 ppm", "short"],
  ["Room CO 9 ppm", "medium"],
  ["Inlet gas pressure 18 mbar", "medium"],
  ["Inlet gas pressure 18.5 mbar", "long"],
  [`${"seventy letters and spaces ".repeat(2)}in a warning now`, "long"],
  [`${"seventy letters and spaces ".repeat(2)}in a warning too!`, "whole"],
])("%s is set %s", (text, size) => expect(sizeOf(text)).toBe(size));

describe("a warning is set by how much it has to say", () => {
  test.each<[string, readonly string[], string, string]>([
    ["short", ["Leave now."], (1 / Math.sqrt(10 + 8)).toFixed(4), "5"],
    ["its longest word", ["Gas off, ventilate, leave."], (1 / Math.sqrt(26 + 8)).toFixed(4), "10"],
    ["several", ["Leave now.", "Gas off."], (1 / Math.sqrt(10 + 8 + 8 + 8)).toFixed(4), "5"],
    ["nothing", [], "1.0000", "4"],
  ])("%s", (_, texts, fit, longest) => expect(fitOf(texts)).toEqual({ "--fit": fit, "--longest": longest }));
});
