import { describe, expect, it } from "vitest";
import { judged } from "../../support/judged.ts";
import { sheet } from "../../support/sheets.ts";
import { check, co, co2, command, high, low, replace, type Said, turn } from "../../support/visits.ts";
import { proved, test } from "./told.ts";

describe("left open", () => {
  const lowSet: Said = [10, low, co2(9), co(20)];
  const all: Said = [20, check("low-fire-cap"), check("test-mode-off"), check("test-port")];
  test([
    ["nothing done", [proved, lowSet, [30, command("finish-visit")]], ["left-open"]],
    [
      "one missing",
      [proved, lowSet, [20, check("low-fire-cap"), check("test-mode-off")], [30, command("finish-visit")]],
      ["left-open"],
    ],
    ["all done", [proved, lowSet, all, [30, command("finish-visit")]], []],
    [
      "one taken back",
      [proved, lowSet, all, [25, check("test-port", false)], [30, command("finish-visit")]],
      ["left-open"],
    ],
    ["not finished yet", [proved], []],
    [
      "finished, then done",
      [
        proved,
        lowSet,
        [30, command("finish-visit")],
        [40, check("low-fire-cap"), check("test-mode-off"), check("test-port")],
      ],
      [],
    ],
  ]);
  it("says what, in the sheet's order; the advice is to close up", () => {
    const { advice, warnings } = judged([
      proved,
      lowSet,
      [20, check("test-mode-off")],
      [30, command("finish-visit")],
    ]);
    expect(warnings[0]?.text).toBe("Not done: refit low fire cap, plug the test port.");
    expect(advice).toEqual({ action: "close-up", open: ["low-fire-cap", "test-port"] });
  });
  it("without a sheet every check is open", () => {
    const { advice } = judged([[0, command("finish-visit")]], { sheet: null });
    expect(advice).toMatchObject({ action: "close-up", open: { length: 7 } });
  });
});

describe("left unproved", () => {
  const all: Said = [40, check("low-fire-cap"), check("test-mode-off"), check("test-port")];
  const finish: Said = [50, command("finish-visit")];
  const text = (script: Said[]) =>
    judged([...script, all, finish], { sheet: sheet() }).warnings[0]?.text ?? "";
  const cases: [string, Said[], string][] = [
    ["nothing read", [], "High fire was not read. Low fire was not read."],
    ["low fire not read", [proved], "Low fire was not read."],
    [
      "high fire out of limits",
      [
        [0, high, co2(8), co(40)],
        [10, low, co2(8), co(20)],
      ],
      "High fire is not proved. Low fire is not proved.",
    ],
    [
      "CO not read",
      [
        [0, high, co2(9.2)],
        [10, low, co2(9), co(20)],
      ],
      "High fire is not proved.",
    ],
    [
      "low fire turned, high fire not rechecked",
      [proved, [10, low, turn(0.1)], [35, low, co2(9), co(20)]],
      "Low fire is not proved. High fire was not rechecked.",
    ],
    [
      "mended to a value that passes",
      [
        [0, high, co2(8), co(40)],
        [2, replace(9.2)],
        [10, low, co2(9), co(20)],
      ],
      "",
    ],
    ["all proved", [proved, [10, low, co2(9), co(20)]], ""],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(text(script)).toBe(expected));
});
