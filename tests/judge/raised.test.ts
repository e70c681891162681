import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { openWarnings, warnedIn } from "../../src/judge/raised.ts";
import { anyScript } from "../support/arbitrary.ts";
import { judged } from "../support/judged.ts";
import { sheet } from "../support/sheets.ts";
import {
  co,
  co2,
  command,
  high,
  low,
  note,
  play,
  room,
  type Said,
  strike,
  time,
  turn,
} from "../support/visits.ts";

const ack = command("acknowledge");

/** Codes of what was raised, "!" for what was taken note of. */
function raised(script: Said[]): string[] {
  const { visit } = play(script, { sheet: sheet() });
  return warnedIn(visit).raised.map(({ code, acknowledgedAt }) => `${code}${acknowledgedAt ? "!" : ""}`);
}

/** Codes of what has to be shown at the end. */
function open(script: Said[]): string[] {
  const { visit, state, now } = play(script, { sheet: sheet() });
  return openWarnings(warnedIn(visit), state, now).map(({ code }) => code);
}

const danger: Said = [0, room(80)];
const early: Said[] = [
  [0, high, turn(0.5)],
  [9, co2(9)],
];

describe("warnings raised in a visit", () => {
  const cases: [string, Said[], string[]][] = [
    ["none", [[0, high, co2(9.2), co(40)]], []],
    ["one that stands is raised once", [danger, [9, note("a")], [12, note("b")]], ["ambient-co-evacuate"]],
    [
      "news is raised each time",
      [...early, [10, ack], [12, co2(9.1)]],
      ["read-too-early!", "read-too-early"],
    ],
    ["acknowledged", [danger, [9, ack]], ["ambient-co-evacuate!"]],
    [
      "acknowledged in one breath with something new: that is still to be heard",
      [...early, [12, ack, turn(2)]],
      ["read-too-early!", "step-too-large"],
    ],
    [
      "the same news again, with it",
      [
        [0, high, turn(2)],
        [9, ack, turn(2)],
      ],
      ["step-too-large!", "step-too-large"],
    ],
    ["acknowledged, and that struck", [...early, [10, ack], [14, strike]], ["read-too-early"]],
    [
      "one of two acknowledgements struck",
      [...early, [10, ack], [12, co2(9.1)], [13, ack], [14, strike]],
      ["read-too-early!", "read-too-early"],
    ],
    ["what stands on is not raised again", [danger, [9, ack], [12, note("a")]], ["ambient-co-evacuate!"]],
    [
      "gone, and back again",
      [danger, [9, ack], [20, room(0)], [30, room(80)]],
      ["ambient-co-evacuate!", "ambient-co-evacuate"],
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(raised(script)).toEqual(expected));
});

describe("warnings that have to be shown", () => {
  const cases: [string, Said[], string[]][] = [
    ["until acknowledged", [...early, [12, note("a")]], ["read-too-early"]],
    ["not after", [...early, [12, ack], [20, note("a")]], []],
    ["a stop stays, acknowledged or not", [danger, [9, ack], [12, note("a")]], ["ambient-co-evacuate"]],
    [
      "a stop whose cause is gone is shown until acknowledged",
      [danger, [20, room(0)]],
      ["ambient-co-evacuate"],
    ],
    ["and then no more", [danger, [20, room(0)], [25, ack]], []],
    [
      "of both firings, though the one stops and the other does not",
      [
        [0, high, co2(10), co(180)],
        [60, low, co2(9.4), co(180)],
      ],
      ["flue-co-over-limit", "flue-co-over-limit"],
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(open(script)).toEqual(expected));
});

it("a warning is shown with when it was given", () => {
  const { visit, state, now } = play([...early, [12, room(80)], [20, note("a")]], { sheet: sheet() });
  expect(openWarnings(warnedIn(visit), state, now).map(({ code, at }) => [code, at])).toEqual([
    ["ambient-co-evacuate", time(12)],
    ["read-too-early", time(9)],
  ]);
});

it("every warning that is given is raised, and shown until acknowledged", () => {
  fc.assert(
    fc.property(anyScript, (script) => {
      const given = judged(script, { sheet: sheet() }).warnings;
      const { visit, state, now } = play(script, { sheet: sheet() });
      const warned = warnedIn(visit);
      for (const { code, text } of given) {
        expect(warned.raised).toContainEqual(expect.objectContaining({ code, text }));
      }
      const shown = openWarnings(warned, state, now).map(({ code }) => code);
      const acknowledged = warned.raised.some(({ acknowledgedAt }) => acknowledgedAt !== null);
      if (!acknowledged) for (const { code } of given) expect(shown).toContain(code);
    }),
  );
});
