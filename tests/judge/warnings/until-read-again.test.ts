import { describe, expect, it } from "vitest";
import type { Item } from "../../../src/meaning/item.ts";
import { judged } from "../../support/judged.ts";
import { PRESSURE_SHEET } from "../../support/sheets.ts";
import { co, co2, gas, high, low, o2, replace, type Said, strike, turn } from "../../support/visits.ts";
import { type Case, test } from "./told.ts";

describe("a struck flue CO stops until CO is read again at that firing", () => {
  const over: Said[] = [
    [0, high, co2(9.2)],
    [5, co(400)],
  ];
  const stop = ["flue-co-air-free-over-400", "flue-co-over-limit", "stop"];
  const struck: Said[] = [...over, [9, strike]];
  const cases: Case[] = [
    ["struck", struck, stop],
    ["with the CO2 that it was read with", [...struck, [12, strike]], stop],
    ["read again", [...struck, [12, co(40)]], []],
    ["struck and said anew in one breath", [...over, [9, strike, co(40)]], []],
    ["mended: a reading by itself", [...over, [9, replace(40)]], []],
    ["mended, then struck", [...over, [9, replace(40)], [12, strike]], []],
    ["the good one after it struck as well", [...struck, [12, co(40)], [15, strike]], stop],
    ["read at the other firing", [...struck, [12, low, co2(9), co(40)]], stop],
    ["a screw turned", [...struck, [12, turn(-0.1)]], stop],
    [
      "one within limits",
      [
        [0, high, co2(9.2), co(40)],
        [9, strike],
      ],
      [],
    ],
    [
      "one that turning leaner cures",
      [
        [0, high, co2(10), co(120)],
        [9, strike],
      ],
      [],
    ],
  ];
  test(cases);
  it("an older one that stands does not lift it", () => {
    const { advice, next } = judged([
      [0, high, co2(9.2), co(40)],
      [60, co(180)],
      [65, strike],
    ]);
    expect(advice.action).toBe("stop");
    expect(next).toBe("C O one hundred eighty at high fire was logged. Read C O again.");
  });
  it("of unknown firing: read at any", () => {
    const unknown: Said[] = [
      [0, co2(9.2), co(400)],
      [9, strike],
    ];
    expect(judged(unknown).advice.action).toBe("stop");
    expect(judged([...unknown, [12, high, co2(9.2), co(40)]]).advice.action).not.toBe("stop");
  });
});

describe("a struck gas pressure stops until it is read again", () => {
  const begun: Said = [0, gas(4.4, "static")];
  const stop = ["gas-pressure-out", "stop"];
  const cases: Case[] = [
    ["struck", [begun, [9, strike]], stop],
    ["read again", [begun, [9, strike], [12, gas(7, "static")]], []],
    ["mended", [begun, [9, replace(7)]], []],
    ["the dynamic one read", [begun, [9, strike], [12, high, gas(6.5, "dynamic")]], stop],
    [
      "a drop that was too far",
      [
        [0, gas(7, "static"), gas(5.9, "dynamic")],
        [9, strike],
      ],
      stop,
    ],
    [
      "dynamic at low fire for high fire",
      [
        [0, high, gas(3.9)],
        [9, strike],
        [12, low, gas(6.5)],
      ],
      stop,
    ],
  ];
  test(cases, PRESSURE_SHEET);
  it("says which", () => {
    const { next } = judged([begun, [9, strike]], { sheet: PRESSURE_SHEET });
    expect(next).toBe(
      "Static inlet gas pressure four point four inches of water was logged. Read static inlet gas pressure again.",
    );
  });
});

describe("O2 and CO2 that disagreed, one of them struck: until that one is read again", () => {
  const stop = ["o2-co2-disagree", "stop"];
  const readThen = (first: Item, second: Item, ...then: Said[]): Said[] => [
    [0, high, first],
    [5, second],
    [9, strike],
    ...then,
  ];
  test([
    ["O2", readThen(co2(9.2), o2(8.5)), stop],
    ["CO2", readThen(o2(8.5), co2(9.2)), stop],
    ["O2 read again", readThen(co2(9.2), o2(8.5), [12, o2(4.5)]), []],
    ["CO2 read again", readThen(o2(4.5), co2(7), [12, co2(9.2)]), []],
    ["O2 read again, and out again", readThen(co2(9.2), o2(8.5), [12, o2(8.5)]), stop],
    ["CO alone read", readThen(co2(9.2), o2(8.5), [12, co(40)]), stop],
  ]);
});
