import { describe, expect, it } from "vitest";
import { judged } from "../../support/judged.ts";
import { sheet } from "../../support/sheets.ts";
import {
  check,
  co,
  co2,
  command,
  gas,
  high,
  low,
  note,
  replace,
  room,
  type Said,
  strike,
  turn,
} from "../../support/visits.ts";
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
    const script: Said[] = [proved, lowSet, [20, check("test-mode-off")], [30, command("finish-visit")]];
    const { advice, warnings } = judged(script, { sheet: sheet() });
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
      "High fire is out of limits. Low fire is not proved.",
    ],
    ["low fire out of limits", [proved, [10, low, co2(8.5), co(20)]], "Low fire is out of limits."],
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
      "high fire read again, without CO",
      [proved, [10, low, turn(0.1)], [75, low, co2(9), co(20)], [90, high, co2(9.2)]],
      "High fire was not proved again.",
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
    ["room CO 8", [proved, [10, low, co2(9), co(20), room(8)]], ""],
    ["room CO 9", [proved, [10, low, co2(9), co(20), room(9)]], "Room C O is raised."],
    [
      "room CO that stops is told by itself",
      [proved, [10, low, co2(9), co(20), room(35)]],
      "Room C O thirty five. Stop and ventilate.",
    ],
    ["firings before the room", [proved, [20, room(9)]], "Low fire was not read. Room C O is raised."],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(text(script)).toBe(expected));

  const pressure: [string, Said[], string][] = [
    ["never read", [], "Static and dynamic gas pressure was not read."],
    ["static never read", [[0, gas(6, "dynamic")]], "Static gas pressure was not read."],
    ["both read", [[0, gas(7, "static"), gas(6.5, "dynamic")]], ""],
  ];
  it.each(pressure)("gas pressure %s", (_name, read, expected) => {
    const script: Said[] = [...read, proved, [10, low, co2(9), co(20)], all, finish];
    expect(judged(script).warnings[0]?.text ?? "").toBe(expected);
  });
  it("gas pressure out of limits", () => {
    const script: Said[] = [
      [0, gas(4, "static"), gas(4, "dynamic")],
      proved,
      [10, low, co2(9), co(20)],
      all,
      finish,
    ];
    expect(judged(script).warnings.map(({ code, text: said }) => `${code}: ${said}`)).toContain(
      "left-unproved: Gas pressure is out of limits.",
    );
  });

  describe("what is mended after finishing", () => {
    const done: Said[] = [proved, [10, low, co2(9), co(20)], all, finish];
    const after = (...then: Said[]) =>
      judged([...done, ...then], { sheet: sheet() }).warnings.map(({ text: said }) => said);
    const mends: [string, Said, string[]][] = [
      ["a reading, out of limits", [60, replace(8.5)], ["Low fire is out of limits."]],
      ["a reading, in limits", [60, replace(9.1)], []],
      ["the finish itself is struck", [60, strike], []],
      ["a note", [60, note("a")], []],
    ];
    it.each(mends)("%s", (_name, then, expected) => expect(after(then)).toEqual(expected));
  });
});
