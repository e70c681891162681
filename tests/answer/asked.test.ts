import { describe, expect, it } from "vitest";
import type { FuelLimits } from "../../src/visit/sheet.ts";
import type { VisitHead } from "../../src/visit/visit.ts";
import { NATURAL_GAS, PRESSURE_SHEET, sheet } from "../support/sheets.ts";
import { answer, played, withoutExpectation } from "../support/talk.ts";
import { co2, command, high, low, type Said } from "../support/visits.ts";

const begun = "high fire CO forty";
const lean = "CO2 eight point four";
const proved = "high fire CO2 nine point two CO forty";
const failing = "C O 2 eight point four, low, eight point seven to nine point seven.";
const oneTurn = "Turn the high fire screw one full turn clockwise, expect …, wait sixty seconds.";
const before = "First zero the analyser in fresh air, read room C O. Then go to high fire.";
const pressures = ["static gas pressure seven inches", "high fire", "dynamic gas pressure six inches"];
const gasPressure = "Gas pressure: static seven inches of water, dynamic six, good.";

type Case = [name: string, phrases: string[], expected: string, changes?: Partial<VisitHead>];
const check = (_name: string, phrases: string[], expected: string, changes: Partial<VisitHead> = {}) =>
  expect(withoutExpectation(answer(phrases, changes))).toBe(expected);

describe("read back: the whole state, the present firing first", () => {
  const cases: Case[] = [
    [
      "nothing yet",
      ["read back"],
      `No readings yet. Still to do: before test, high fire, low fire, close up. ${before}`,
    ],
    [
      "both firings",
      [proved, "low fire CO2 nine", "read back"],
      "Low fire: C O 2 nine, good. High fire: C O 2 nine point two, C O forty, good. Still to do: low fire, close up. Read C O.",
    ],
    [
      "gas pressure, its unit once",
      [...pressures, "read back"],
      `${gasPressure} Still to do: high fire, low fire, close up. Let it settle, then read C O 2.`,
      { sheet: PRESSURE_SHEET },
    ],
    [
      "the screws, net; what a turn made old",
      [begun, lean, "one turn clockwise", "quarter turn out", "read back"],
      `High fire before the last turn: C O forty, good. ${failing} High fire screw three quarters of a turn clockwise in all. Still to do: high fire, low fire, close up. Read C O 2.`,
    ],
    [
      "some read before the turn, some after it",
      [proved, "quarter turn clockwise", "CO2 nine point three", "read back"],
      "High fire: C O 2 nine point three, before the last turn C O forty, good. High fire screw a quarter turn clockwise in all. Still to do: high fire, low fire, close up. Read C O.",
    ],
    [
      "a screw turned back",
      [begun, lean, "half a turn clockwise", "half a turn out", "read back"],
      `High fire before the last turn: C O forty, good. ${failing} High fire screw back where it was. Still to do: high fire, low fire, close up. Read C O 2.`,
    ],
    [
      "what is open at the end, the next step in it",
      [proved, "low fire CO2 nine CO ten", "test mode off", "read back"],
      "High fire: C O 2 nine point two, C O forty, good. Low fire: C O 2 nine, C O ten, good. Still to do: refit low fire cap, plug the test port.",
    ],
    [
      "room air",
      ["high fire", "room CO three", "read back"],
      "Room C O three. Still to do: high fire, low fire, close up. Let it settle, then read C O 2.",
    ],
    [
      "no sheet",
      [proved, "read back"],
      "High fire: C O 2 nine point two, C O forty. No sheet, not judged. Still to do: low fire, close up. Go to low fire.",
      { sheet: null },
    ],
    [
      "an open question last",
      [proved, "CO2 ninety two", "read back"],
      "High fire: C O 2 nine point two, C O forty, good. Still to do: low fire, close up. C O 2 nine point two?",
    ],
  ];
  it.each(cases)("%s", check);
});

describe("is that good, which way, what's next, say again", () => {
  const cases: Case[] = [
    ["good", [proved, "is that good"], "High fire: C O 2 nine point two, C O forty, good. Go to low fire."],
    ["not good", [begun, lean, "is that good"], `High fire: C O forty, good. ${failing} ${oneTurn}`],
    [
      "a sheet without limits for this gas",
      [proved, "is that good"],
      "High fire: C O 2 nine point two, C O forty. This sheet has no limits for propane. Go to low fire.",
      { sheet: PRESSURE_SHEET, fuel: "propane" },
    ],
    ["which way", [begun, lean, "which way"], `${failing} ${oneTurn}`],
    ["which way, when all is well", [proved, "which way"], "Go to low fire."],
    ["what's next", [begun, lean, "what's next"], oneTurn],
    ["what's next at the start", ["what's next"], before],
    [
      "what's next, after the end",
      [...["low fire cap is back on", "test mode off", "test port plugged"], "finish visit", "what's next"],
      "The visit is finished.",
    ],
    ["what's next, with a question open", ["CO2 ninety two", "what's next"], "C O 2 nine point two?"],
    [
      "a danger stands",
      ["high fire CO2 nine point two CO two hundred", "what's next"],
      "C O over the limit at high fire. Get help.",
    ],
    [
      "say again, a step fuller",
      [begun, lean, "say again"],
      "High fire C O 2 eight point four, low, eight point seven to nine point seven. Turn the high fire screw one full turn clockwise to raise C O 2, expect …, then wait sixty seconds for it to settle.",
    ],
    [
      "say again after a question: its answer, as it is now",
      [begun, lean, "one turn clockwise", "@310 how long left", "@320 say again"],
      "Forty seconds left.",
    ],
    [
      "twice",
      [proved, "read back", "say again", "say again"],
      "High fire: C O 2 nine point two, C O forty, good. Still to do: low fire, close up. Go to low fire.",
    ],
    ["talk in between", [proved, "how long left", "my feet hurt", "say again"], "No clock is running."],
    [
      "say again after what was logged after a question",
      ["how long left", proved, "say again"],
      "High fire C O 2 nine point two, good, eight point seven to nine point seven. High fire C O forty, good, at most one hundred seventy five. Go to low fire: high fire is in limits.",
    ],
    ["nothing to repeat", ["repeat"], "Nothing was said yet."],
    ["yes to nothing", ["yes"], "Nothing to confirm."],
    ["no to nothing", ["no"], "Nothing to confirm."],
    ["stop listening", ["stop listening"], "Not listening."],
  ];
  it.each(cases)("%s", check);
});

describe("how long left", () => {
  const turned = [begun, lean, "@200 one turn clockwise"];
  const cases: Case[] = [
    ["some", [...turned, "@225 how long left"], "Thirty five seconds left."],
    ["one second", [...turned, "@259 how long left"], "One second left."],
    ["over", [...turned, "@260 how long left"], "Ready."],
    ["no clock", ["how long left"], "No clock is running."],
    ["started", ["high fire", "start the clock"], "Clock started. Sixty seconds left. Wait sixty seconds."],
    ["no sheet", ["start the clock", "how long left"], "No settle time known.", { sheet: null }],
  ];
  it.each(cases)("%s", check);
});

describe("the limits", () => {
  const atHigh: Said = [0, high];
  const set: Said = [10, co2(9.2, "high")];
  const band = (limits: Partial<FuelLimits>) =>
    sheet({ fuels: { "natural-gas": { ...NATURAL_GAS, ...limits } } });
  const coMost = "C O at most one hundred seventy five parts per million.";
  const cases: [string, Said[], string, Partial<VisitHead>?][] = [
    [
      "before a firing is known those of the gas pressure",
      [],
      "Gas pressure: static four point five to fourteen inches of water, dynamic four to fourteen inches of water, drop at most one inch of water.",
      { sheet: PRESSURE_SHEET },
    ],
    ["none for the gas pressure", [], "Gas pressure: no limit known."],
    ["high fire", [atHigh], `High fire. C O 2 eight point seven to nine point seven percent. ${coMost}`],
    [
      "low fire, from the high-fire value",
      [set, [20, low]],
      `Low fire. C O 2 eight point nine to nine point two percent. ${coMost}`,
    ],
    [
      "low fire, before high fire has passed",
      [[20, low]],
      `Low fire. C O 2 from zero point three below high fire to high fire, once that is set. ${coMost}`,
    ],
    [
      "one side, and none",
      [atHigh],
      "High fire. C O 2 no limit known. C O at most one hundred parts per million. Oxygen at least four percent.",
      { sheet: band({ high: { co: { max: 100, unit: "[ppm]" }, o2: { min: 4, unit: "%" } } }) },
    ],
    ["no sheet", [atHigh], "No sheet, no limit known.", { sheet: null }],
    [
      "another gas",
      [atHigh],
      "This sheet has no limits for propane.",
      { sheet: PRESSURE_SHEET, fuel: "propane" },
    ],
  ];
  it.each(cases)("%s", (_name, script, expected, changes = {}) => {
    const turns = played([...script, [99, command("limits")]], changes);
    expect(turns.at(-1)?.reply.answer).toBe(expected);
  });
});
