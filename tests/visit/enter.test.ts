import { describe, expect, it } from "vitest";
import type { UnitSystem } from "../../src/measure/firing.ts";
import type { QuantityId } from "../../src/measure/quantity.ts";
import type { Unit } from "../../src/measure/unit.ts";
import type { EntryBody, Reading } from "../../src/visit/entry.ts";
import {
  check,
  co,
  co2,
  command,
  gas,
  high,
  low,
  note,
  play,
  reading,
  replace,
  room,
  type Said,
  strike,
  turn,
  unsure,
} from "../support/visits.ts";

const bodies = (...script: Said[]): EntryBody[] => [...play(script).since].map((entry) => entry.body);
const kinds = (...script: Said[]) =>
  bodies(...script).map((body) => (body.kind === "unsure" ? `unsure: ${body.unsure.reason}` : body.kind));
const readingOf = (...script: Said[]): Reading => {
  const body = bodies(...script).find((each) => each.kind === "reading");
  if (!body) throw new Error("no reading was logged");
  return body;
};

describe("what becomes an entry", () => {
  const cases: [string, Said[], string[]][] = [
    ["a firing and two readings", [[0, high, co2(9.2), co(40)]], ["firing", "reading", "reading"]],
    ["a turn with its screw", [[0, turn(0.25, "high")]], ["adjustment"]],
    ["a turn of no known screw", [[0, turn(0.25)]], ["unsure: which screw was not said"]],
    ["a note", [[0, note("gasket replaced")]], ["note"]],
    ["a check", [[0, check("panel")]], ["check"]],
    ["mark as found", [[0, command("mark-as-found")]], ["mark"]],
    ["mark as left", [[0, command("mark-as-left")]], ["mark"]],
    ["the clock", [[0, command("start-timer")]], ["mark"]],
    ["finish", [[0, command("finish-visit")]], ["mark"]],
    ["read back makes none", [[0, command("read-back")]], []],
    ["time left makes none", [[0, command("time-left")]], []],
    ["yes without a question makes none", [[0, command("yes")]], []],
    ["no without a question makes none", [[0, command("no")]], []],
    ["nothing to strike", [[0, strike]], ["unsure: nothing to strike"]],
    [
      "nothing to replace",
      [
        [0, high],
        [1, replace(9.4)],
      ],
      ["unsure: no reading to replace"],
    ],
    ["what was not understood", [[0, co2(9.2), unsure("mumble")]], ["reading", "unsure: not understood"]],
    ["CO2 at its bound", [[0, co2(20)]], ["reading"]],
    ["CO2 above its bound", [[0, co2(20.1)]], ["unsure: outside what can be measured"]],
    ["CO2 below its bound", [[0, co2(-0.1)]], ["unsure: outside what can be measured"]],
    [
      "a replacement",
      [
        [0, co2(9.2)],
        [1, replace(9.4)],
      ],
      ["replace"],
    ],
    [
      "a replacement at the bound",
      [
        [0, co2(9.2)],
        [1, replace(20)],
      ],
      ["replace"],
    ],
    [
      "a replacement out of bounds",
      [
        [0, co2(9.2)],
        [1, replace(94)],
      ],
      ["unsure: outside what can be measured"],
    ],
    [
      "a strike",
      [
        [0, co2(9.2)],
        [1, strike],
      ],
      ["strike"],
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(kinds(...script)).toEqual(expected));
});

describe("what was assumed, field by field", () => {
  const said = { value: "said", unit: "said", firing: "said", condition: "said" };
  const cases: [string, Said[], Partial<Reading>][] = [
    ["all said", [[0, co2(9.2, "high")]], { firing: "high", origin: { ...said } as Reading["origin"] }],
    [
      "firing carried over from an earlier phrase",
      [
        [0, high],
        [9, co2(9.2)],
      ],
      { firing: "high", origin: { ...said, firing: "assumed" } as Reading["origin"] },
    ],
    [
      "firing carried over from a reading",
      [
        [0, co2(9.2, "low")],
        [9, co(40)],
      ],
      { firing: "low" },
    ],
    ["no firing known, none assumed", [[0, co2(9.2)]], { firing: null, origin: said as Reading["origin"] }],
    ["a room reading belongs to no firing", [[0, high, room(3)]], { firing: null }],
    [
      "gas pressure of a running burner is dynamic",
      [[0, high, gas(7)]],
      {
        condition: "dynamic",
        firing: "high",
        origin: { ...said, unit: "assumed", firing: "assumed", condition: "assumed" } as Reading["origin"],
      },
    ],
    ["gas pressure before any firing is static", [[0, gas(7)]], { condition: "static", firing: null }],
    [
      "static as said, though the burner ran",
      [[0, high, gas(7, "static")]],
      { condition: "static", firing: null },
    ],
    [
      "the unit last said stays",
      [
        [0, gas(18, "static", "mbar")],
        [5, gas(17)],
      ],
      { unit: "mbar", value: 17 },
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => {
    const found = readingOf(...script);
    expect(found).toMatchObject(expected);
  });
});

describe("the unit that goes without saying", () => {
  const cases: [QuantityId, UnitSystem, Unit][] = [
    ["gas-pressure-inlet", "us", "[in_i'H2O]"],
    ["gas-pressure-inlet", "si", "mbar"],
    ["gas-pressure-manifold", "us", "[in_i'H2O]"],
    ["draft", "us", "[in_i'H2O]"],
    ["draft", "si", "Pa"],
    ["flue-temperature", "us", "[degF]"],
    ["flue-temperature", "si", "Cel"],
    ["water-flow", "us", "[gal_us]/min"],
    ["water-flow", "si", "L/min"],
    ["altitude", "us", "[ft_i]"],
    ["altitude", "si", "m"],
    ["co2", "us", "%"],
    ["co", "si", "[ppm]"],
  ];
  it.each(cases)("%s in %s is %s", (quantity, units, unit) => {
    const value = quantity === "draft" ? -0.02 : 5;
    const { state } = play([[0, { ...reading(quantity, value), unit: null }]], { units });
    expect(state.readings[0]?.reading).toMatchObject({ unit, value });
  });

  it("asks where the assumed unit cannot be: 1743 mbar, but 1743 Pa", () => {
    const { since, state } = play([[0, gas(1743, "static")]], { units: "si" });
    expect(state.readings).toEqual([]);
    expect(since[0]?.body).toMatchObject({ unsure: { candidates: [{ unit: "Pa", value: 1743 }] } });
  });
});

describe("questions", () => {
  const asked: Said = [0, unsure("CO2 ninety two", co2(9.2))];
  const values = (...script: Said[]) => play(script).state.readings.map((r) => r.reading.value);
  const cases: [string, Said[], number[]][] = [
    ["yes logs the candidate", [asked, [5, command("yes")]], [9.2]],
    ["no drops it", [asked, [5, command("no")]], []],
    ["a second yes logs nothing more", [asked, [5, command("yes")], [6, command("yes")]], [9.2]],
    ["yes after no logs nothing", [asked, [5, command("no")], [6, command("yes")]], []],
    ["a better reading closes it", [asked, [5, co2(9.3)], [6, command("yes")]], [9.3]],
    ["it stays open over a mumble", [asked, [5, unsure("mumble")], [6, command("yes")]], [9.2]],
    [
      "'no, nine point four' mends the candidate, not the old reading",
      [[0, co2(8)], asked, [5, replace(9.4)]],
      [8, 9.4],
    ],
    ["'scratch that' drops the question, not the old reading", [[0, co2(8)], asked, [5, strike]], [8]],
    [
      "yes to a mended replacement",
      [
        [0, co2(9.2)],
        [1, replace(94)],
        [2, command("yes")],
      ],
      [9.4],
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(values(...script)).toEqual(expected));

  it("yes to 'which screw' logs nothing", () => {
    expect(bodies([0, turn(0.5)], [3, command("yes")])).toEqual([]);
  });
});

describe("corrections point at what they mend", () => {
  it("strikes the last item that stands, then the one before", () => {
    const { state } = play([
      [0, low, co2(9.2), co(40)],
      [5, strike],
      [6, strike],
    ]);
    expect(state.items.map((item) => item.struckBy)).toEqual([null, "e4", "e3"]);
  });
  it("a replacement without a unit keeps the reading's own", () => {
    const { state } = play([
      [0, gas(18.5, "static", "mbar")],
      [5, replace(17.5)],
    ]);
    expect(state.readings[0]?.reading).toMatchObject({ value: 17.5, unit: "mbar", condition: "static" });
  });
  it.each([
    ["decimals of a CO mend the CO2 before it", 7.9, [7.9, 12], "replace"],
    ["a whole number mends the CO", 14, [7.8, 14], "replace"],
  ])("%s", (_name, value, values, kind) => {
    const script: Said[] = [
      [0, low, co2(7.8), co(12)],
      [5, replace(value)],
    ];
    expect(play(script).state.readings.map((r) => r.reading.value)).toEqual(values);
    expect(kinds(...script)).toEqual([kind]);
  });
  it("decimals that no reading can have are asked about", () => {
    expect(kinds([0, co(12)], [5, replace(7.9)])).toEqual(["unsure: that reading has no decimals"]);
  });
  it("a replacement out of bounds changes nothing", () => {
    const { state } = play([
      [0, co2(9.2)],
      [5, replace(200)],
    ]);
    expect(state.readings.map((r) => [r.reading.value, r.history.length])).toEqual([[9.2, 0]]);
  });
});
