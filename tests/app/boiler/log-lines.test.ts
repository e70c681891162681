import { describe, expect, test } from "vitest";
import { type LogLine, logLines } from "../../../src/app/boiler/log-lines.ts";
import type { Adjustment, EntryBody } from "../../../src/visit/entry.ts";
import { reading, visitOf } from "../build.ts";

const lines = (...bodies: EntryBody[]) => logLines(visitOf(...bodies), new Set());
const turn = (turns: number): Adjustment => ({
  kind: "adjustment",
  adjuster: "high",
  turns,
  origin: { adjuster: "said" },
});
const struck = (all: readonly LogLine[]) => all.map((line) => line.struck);

test("a line has the time at the place, the words as heard and what was understood", () => {
  expect(lines(reading())).toEqual([
    {
      id: "e0",
      time: "09:00:00",
      said: "words 0",
      understood: "CO2 9.2 %, high fire",
      assumed: [],
      struck: false,
      clip: null,
    },
  ]);
});

describe("what was understood", () => {
  test.each<[EntryBody, string]>([
    [
      reading({ quantity: "gas-pressure-inlet", value: 18.5, unit: "mbar", condition: "dynamic" }),
      "Inlet gas pressure 18.5 mbar, dynamic, high fire",
    ],
    [reading({ quantity: "co-ambient", value: 0, unit: "[ppm]", firing: null }), "Room CO 0 ppm"],
    [{ kind: "firing", firing: "low" }, "Low fire"],
    [turn(-0.5), "High-fire screw, ½ turn counterclockwise"],
    [{ kind: "note", text: "condensate trap dry" }, "Note: condensate trap dry"],
    [{ kind: "check", item: "test-port", done: true }, "Flue test port plugged: done"],
    [{ kind: "check", item: "panel", done: false }, "Panel back on: not done"],
    [{ kind: "check", item: "isolation", done: true }, "Gas isolated before opening the tap: done"],
    [{ kind: "check", item: "analyser-zeroed", done: false }, "Analyser zeroed in fresh air: not done"],
    [{ kind: "mark", mark: "as-found" }, "As found"],
    [{ kind: "mark", mark: "acknowledged" }, "Warnings acknowledged"],
    [{ kind: "mark", mark: "gas-smell" }, "Smell of gas"],
    [{ kind: "mark", mark: "co-alarm" }, "CO alarm sounding"],
    [{ kind: "replace", target: "e9", with: turn(0.25) }, "Mended to High-fire screw, ¼ turn clockwise"],
    [
      { kind: "unsure", unsure: { text: "CO2 ninety two", reason: "out of bounds", candidates: [] } },
      "Not logged: out of bounds",
    ],
    [{ kind: "strike", target: "gone" }, "Struck: an entry that is not here"],
  ])("%j", (body, text) => expect(lines(body)[0]?.understood).toBe(text));
});

describe("what was assumed", () => {
  const assumed = (body: EntryBody) => lines(body)[0]?.assumed;
  const all = { value: "said", unit: "assumed", firing: "assumed", condition: "assumed" } as const;

  test("the only unit of a quantity is no assumption", () =>
    expect(assumed(reading({ origin: all }))).toEqual(["firing"]));
  test("a unit that could have been another is", () =>
    expect(assumed(reading({ quantity: "flue-temperature", unit: "Cel", origin: all }))).toEqual([
      "unit",
      "firing",
    ]));
  test("nor is what the reading does not have", () =>
    expect(assumed(reading({ firing: null, origin: all }))).toEqual([]));
  test("a screw that was not named", () =>
    expect(
      assumed({ kind: "adjustment", adjuster: "low", turns: 0.1, origin: { adjuster: "assumed" } }),
    ).toEqual(["which screw"]));
});

describe("the place of the sound", () => {
  /** Five entries: the second and third are of one phrase, the fourth repeats its words later. */
  const two = { at: "2026-11-25T08:00:01.000Z", phrase: "CO2 nine, CO forty" };
  const visit = visitOf(reading(), reading(), reading(), reading(), reading());
  const changes = [{}, two, two, { phrase: two.phrase }, {}];
  const places = (...clips: number[]) =>
    logLines(
      { ...visit, entries: visit.entries.map((entry, index) => ({ ...entry, ...changes[index] })) },
      new Set(clips),
    ).map(({ clip }) => clip);

  test.each([
    ["none is kept", [], [null, null, null, null, null]],
    ["one entry, one sound", [0], [0, null, null, null, null]],
    ["all entries of a phrase share its sound", [1], [null, 1, 1, null, null]],
    ["the same words said again have their own", [3], [null, null, null, 3, null]],
    ["a sound under no first entry is nobody's", [2], [null, null, null, null, null]],
    ["all that are kept", [0, 1, 3, 4], [0, 1, 1, 3, 4]],
  ])("%s", (_, clips, expected) => expect(places(...clips)).toEqual(expected));
});

describe("what was taken back stays, struck", () => {
  test("a strike strikes its target only", () =>
    expect(struck(lines(reading(), reading(), { kind: "strike", target: "e0" }))).toEqual([
      true,
      false,
      false,
    ]));
  test("a replacement strikes the value before it", () =>
    expect(
      struck(lines(reading(), { kind: "replace", target: "e0", with: reading({ value: 9.4 }) })),
    ).toEqual([true, false]));
  test("of a turn as of a reading", () =>
    expect(struck(lines(turn(-0.5), { kind: "replace", target: "e0", with: turn(0.5) }))).toEqual([
      true,
      false,
    ]));
  test("a second replacement strikes the first", () =>
    expect(
      struck(
        lines(
          reading(),
          { kind: "replace", target: "e0", with: reading({ value: 9.4 }) },
          { kind: "replace", target: "e0", with: reading({ value: 9.5 }) },
        ),
      ),
    ).toEqual([true, true, false]));
  test("a strike after a replacement strikes both", () =>
    expect(
      struck(
        lines(
          reading(),
          { kind: "replace", target: "e0", with: reading({ value: 9.4 }) },
          { kind: "strike", target: "e0" },
        ),
      ),
    ).toEqual([true, true, false]));
  test("a strike of nothing strikes nothing", () =>
    expect(struck(lines(reading(), { kind: "strike", target: "gone" }))).toEqual([false, false]));
});
