import { describe, expect, it } from "vitest";
import type { Item, Mend, Unsure } from "../../src/meaning/item.ts";
import { Entry } from "../../src/visit/entry.ts";
import { spokenLog } from "../support/spoken-log.ts";
import { co, co2, gas, high, low, play, reading, room, type Said, turn, unsure } from "../support/visits.ts";

const mend = (fields: Omit<Mend, "kind">): Item => ({ kind: "mend", ...fields });
const flue = (value: number) => reading("flue-temperature", value);
const script = (utterances: (Item | Unsure)[][]) => utterances.map((things, i): Said => [10 * i, ...things]);

/** What stands after these utterances, ten seconds apart, firings of readings beside them. */
function log(...utterances: (Item | Unsure)[][]): string {
  const { state } = play(script(utterances));
  const firings = state.readings.map(({ reading: { firing } }) => firing ?? "-").join(" ");
  return `${spokenLog(play(script(utterances)).visit)} [${firings}]`;
}

describe("a mend without a number", () => {
  const cases: [string, (Item | Unsure)[][], string][] = [
    ["the unit", [[flue(54)], [mend({ unit: "Cel" })]], "flue temperature fifty four degrees Celsius [-]"],
    [
      "the unit: of the last reading that can have it",
      [[gas(7, "static")], [flue(54)], [mend({ unit: "mbar" })]],
      "static inlet gas pressure seven millibar; flue temperature fifty four degrees Fahrenheit [- -]",
    ],
    ["no unit of what has only one", [[co(40)], [mend({ unit: "Cel" })]], "C O forty [-]"],
    [
      "no unit in which the value cannot be",
      [[gas(90, "static", "mbar")], [mend({ unit: "[psi]" })]],
      "static inlet gas pressure ninety millibar [-]",
    ],
    [
      "static: the firing that was assumed goes",
      [[high], [gas(7)], [mend({ condition: "static" })]],
      "high fire; static inlet gas pressure seven inches of water [-]",
    ],
    [
      "dynamic: the firing comes",
      [[high], [gas(7, "static")], [mend({ condition: "dynamic" })]],
      "high fire; dynamic inlet gas pressure seven inches of water [high]",
    ],
    ["the condition is of gas pressures", [[co2(9)], [mend({ condition: "static" })]], "C O 2 nine [-]"],
    [
      "the firing: all readings of the last utterance, and no older one",
      [[co2(9, "high")], [co2(8, "high"), co(12, "high")], [mend({ firing: "low" })]],
      "C O 2 nine; C O 2 eight; C O twelve [high low low]",
    ],
    [
      "the firing without a reading: where the burner is",
      [[high], [mend({ firing: "low" })]],
      "high fire; low fire []",
    ],
    ["a room reading has none", [[room(3)], [mend({ firing: "low" })]], "room C O three; low fire [-]"],
    [
      "the way",
      [[turn(0.25, "high")], [mend({ way: "counterclockwise" })]],
      "high fire screw a quarter turn counterclockwise []",
    ],
    [
      "the way that it was",
      [[turn(0.25, "high")], [mend({ way: "clockwise" })]],
      "high fire screw a quarter turn clockwise []",
    ],
    [
      "the other way",
      [[turn(-0.25, "high")], [mend({ way: "opposite" })]],
      "high fire screw a quarter turn clockwise []",
    ],
    [
      "the other way, after a reading",
      [[turn(0.25, "high")], [co2(9)], [mend({ way: "opposite" })]],
      "high fire screw a quarter turn counterclockwise; C O 2 nine [-]",
    ],
    [
      "the screw",
      [[turn(0.25, "high")], [mend({ adjuster: "low" })]],
      "low fire screw a quarter turn clockwise []",
    ],
    ["nothing logged", [[mend({ way: "clockwise" })]], " []"],
  ];
  it.each(cases)("%s", (_name, utterances, expected) => expect(log(...utterances)).toBe(expected));
});

describe("a mend without a number, while a question is open", () => {
  const whichWay: Unsure = {
    ...unsure("?", turn(0.25, "low"), turn(-0.25, "low")),
    question: { asks: "way", adjuster: "low", turns: 0.25 },
  };
  const whichScrew: Unsure = { ...unsure("?"), question: { asks: "screw", turns: 0.25 } };
  const cases: [string, (Item | Unsure)[][], string][] = [
    [
      "the way",
      [[whichWay], [mend({ way: "counterclockwise" })]],
      "low fire screw a quarter turn counterclockwise []",
    ],
    [
      "the other way says none",
      [[turn(1, "high")], [whichWay], [mend({ way: "opposite" })]],
      "high fire screw one full turn clockwise []",
    ],
    [
      "the screw, then the way",
      [[whichWay], [mend({ adjuster: "high" })], [mend({ way: "clockwise" })]],
      "high fire screw a quarter turn clockwise []",
    ],
    [
      "which screw",
      [[whichScrew], [mend({ adjuster: "low" })]],
      "low fire screw a quarter turn clockwise []",
    ],
    [
      "a turn in question",
      [[unsure("?", turn(0.1, "low"))], [mend({ way: "opposite" })]],
      "low fire screw a tenth of a turn counterclockwise []",
    ],
    [
      "a reading in question",
      [[unsure("?", co2(8.6, "low"), co2(8.6))], [mend({ firing: "high" })]],
      "C O 2 eight point six [high]",
    ],
  ];
  it.each(cases)("%s", (_name, utterances, expected) => expect(log(...utterances)).toBe(expected));
});

it("loses nothing: what it was stays in the history, and the time with it", () => {
  const { state, visit } = play(
    script([[low], [turn(0.1, "low")], [mend({ way: "opposite" })], [mend({ adjuster: "high" })]]),
  );
  const [, item] = state.items;
  expect(item?.history.map((body) => body.kind === "adjustment" && [body.adjuster, body.turns])).toEqual([
    ["low", 0.1],
    ["low", -0.1],
  ]);
  expect(state.adjustments).toMatchObject([{ at: visit.entries[1]?.at, adjuster: "high", turns: -0.1 }]);
  expect(state.lastTouch.low).toBeNull();
  for (const entry of visit.entries) expect(Entry.parse(entry)).toEqual(entry);
});
