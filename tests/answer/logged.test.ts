import { describe, expect, it } from "vitest";
import type { VisitHead } from "../../src/visit/visit.ts";
import { PRESSURE_SHEET } from "../support/sheets.ts";
import { answer, talk, withoutExpectation } from "../support/talk.ts";

const low = "high fire CO2 eight point four";
const proved = "high fire CO2 nine point two CO forty";
const oneTurn = "Turn the high fire screw one full turn clockwise, expect …, wait sixty seconds.";

describe("what was logged: warnings, verdict, one instruction", () => {
  const cases: [string, string[], string][] = [
    [
      "all is well: the numbers, and what comes next",
      [proved],
      "C O 2 nine point two, C O forty, good. Low fire next.",
    ],
    [
      "low fire was turned: high fire again",
      [proved, "low fire", "a tenth of a turn clockwise", "CO2 nine CO ten"],
      "C O 2 nine, C O ten, good. Recheck high fire.",
    ],
    [
      "low fire before high fire was accepted",
      ["low fire CO2 nine"],
      "C O 2 nine, not judged before high fire. High fire next.",
    ],
    ["room for the name", ["high fire", "CO2 nine point two"], "C O 2 nine point two, good. Read C O."],
    [
      "too low: from where to where, which screw, how far, which way, what to expect, how long",
      ["high fire CO forty", low],
      `C O 2 eight point four, low, eight point seven to nine point seven. ${oneTurn}`,
    ],
    [
      "too low, and CO not read: richer brings more of it",
      [low],
      "C O 2 eight point four, low, eight point seven to nine point seven. Read C O.",
    ],
    [
      "a verdict each, in spoken order",
      ["high fire CO forty CO2 eight point four"],
      `C O forty, good. C O 2 eight point four, low, eight point seven to nine point seven. ${oneTurn}`,
    ],
    [
      "too high",
      ["high fire CO2 ten point one"],
      "C O 2 ten point one, high, eight point seven to nine point seven. Turn the high fire screw one full turn counterclockwise, expect …, wait sixty seconds.",
    ],
    ["a turn", [low, "one turn clockwise"], "High fire screw one full turn clockwise. Wait sixty seconds."],
    [
      "a small turn",
      [proved, "low fire", "a twentieth of a turn clockwise"],
      "A twentieth of a turn clockwise. Wait sixty seconds.",
    ],
    [
      "too early: how long still, once",
      [low, "@200 one turn clockwise", "@225 CO2 nine point one"],
      "Too early: wait thirty five seconds more. C O 2 nine point one, not settled.",
    ],
    [
      "danger first",
      ["high fire CO2 nine point two CO two hundred"],
      "C O over the limit at high fire. Get help. C O 2 nine point two, good. C O two hundred, high, at most one hundred seventy five.",
    ],
    [
      "a warning that is the reading says it once",
      [proved, "room CO seventy five"],
      "Room C O seventy five. Leave now, ventilate, call for help.",
    ],
    [
      "a warning that begins with the reading leaves its limits to say",
      ["static gas pressure three inches"],
      "Static inlet gas pressure three inches of water, out of limits. Do not adjust. Low, four point five to fourteen.",
    ],
    [
      "a warning of a firing does not say that the burner went there",
      ["high fire CO2 nine point two CO two hundred", "high fire"],
      "C O over the limit at high fire. Get help. High fire.",
    ],
    [
      "scratch that",
      ["high fire", "CO2 nine point two", "scratch that"],
      "Struck high fire C O 2 nine point two.",
    ],
    [
      "scratch that, of what stopped the work",
      ["high fire CO2 nine point two", "CO four hundred", "scratch that"],
      "C O four hundred at high fire was logged. Read C O again. Struck high fire C O four hundred.",
    ],
    [
      "scratch that, with the number that was meant: a mend",
      ["high fire CO2 nine point two", "CO four hundred", "scratch that, forty"],
      "Now C O forty, good. Go to low fire.",
    ],
    ["nothing to scratch", ["scratch that"], "Nothing to strike."],
    [
      "no, nine point four",
      [proved, "CO2 nine point two", "no, nine point four"],
      "Now C O 2 nine point four, good. Go to low fire.",
    ],
    ["nothing to mend", ["make that fifty"], "No reading to mend."],
    ["what could not be measured: a question", ["CO2 ninety two"], "C O 2 nine point two?"],
    ["and yes", ["high fire", "CO2 ninety two", "yes"], "C O 2 nine point two, good. Read C O."],
    ["and no", ["high fire", "CO2 ninety two", "no"], "Dropped. Let it settle, then read C O 2."],
    ["a firing", ["high fire"], "High fire. Let it settle, then read C O 2."],
    ["a check", [proved, "test port plugged"], "Test port plugged. Go to low fire."],
    [
      "a check that is not done",
      [proved, "low fire cap isn't on yet"],
      "Low fire cap is off. Go to low fire.",
    ],
    ["a note", [proved, "note gasket renewed"], "Note: gasket renewed. Go to low fire."],
    ["a mark", [proved, "mark as found"], "Marked as found. Go to low fire."],
    [
      "as found, too late",
      [proved, "high screw a quarter turn in", "mark as found"],
      "Marked as found. A screw was turned already. Read C O 2.",
    ],
    [
      "as found, the turn struck",
      [proved, "high screw a quarter turn in", "scratch that", "mark as found"],
      "Marked as found. Go to low fire.",
    ],
    ["not for the log: silence", ["hand me the four millimetre key"], ""],
    ["firing not known", ["CO2 nine point two"], "C O 2 nine point two, firing not known. High fire next."],
  ];
  it.each(cases)("%s", (_name, phrases, expected) =>
    expect(
      withoutExpectation(answer(phrases, phrases[0]?.startsWith("static") ? { sheet: PRESSURE_SHEET } : {})),
    ).toBe(expected),
  );
});

describe("the end of a visit", () => {
  const set = [proved, "low fire CO2 nine CO ten"];
  const closed = [...set, "low fire cap is back on", "test mode off", "test port plugged"];
  const cases: [string, string[], string][] = [
    [
      "with things open",
      [...set, "finish visit"],
      "Not done: refit low fire cap, switch test mode off, plug the test port. Finished with open points.",
    ],
    ["all closed", [...closed, "finish visit"], "Visit finished."],
    [
      "all closed, but something not proved",
      ["low fire cap is back on", "test mode off", "test port plugged", "finish visit"],
      "High fire was not read. Low fire was not read. Finished with open points.",
    ],
    [
      "a danger stands",
      [...closed, "room CO fifty", "finish visit"],
      "Room C O fifty. Stop and ventilate. Finished with open points.",
    ],
    [
      "work goes on",
      [...closed, "finish visit", "high fire CO2 nine point two CO forty"],
      "Visit open again. C O 2 nine point two, C O forty, good. Switch test mode off.",
    ],
    [
      "open again is said once",
      [...closed, "finish visit", "high fire", "CO2 nine point two"],
      "C O 2 nine point two, good. Switch test mode off.",
    ],
    [
      "the last point closed after it: it was the last",
      [...set, "finish visit", "low fire cap is back on", "test mode off", "test port plugged"],
      "Test port plugged. The visit is finished.",
    ],
    ["a note opens nothing", [...closed, "finish visit", "note gasket renewed"], "Note: gasket renewed."],
  ];
  it.each(cases)("%s", (_name, phrases, expected) => expect(answer(phrases)).toBe(expected));

  const ending: [string, string[], "stop-listening" | "none"][] = [
    ["all closed", [...closed, "finish visit"], "stop-listening"],
    ["with things open", [...set, "finish visit"], "none"],
    ["a danger stands", [...closed, "room CO fifty", "finish visit"], "none"],
    [
      "the last point closed after it",
      [...set, "finish visit", "low fire cap is back on", "test mode off", "test port plugged"],
      "stop-listening",
    ],
    ["all but one closed after it", [...set, "finish visit", "low fire cap is back on"], "none"],
    ["closed, but not finished", closed, "none"],
    ["a note after it", [...closed, "finish visit", "note gasket renewed"], "none"],
    ["work goes on after it", [...closed, "finish visit", "high fire CO2 nine point two CO forty"], "none"],
  ];
  it.each(ending)("listening ends with the work: %s", (_name, phrases, effect) =>
    expect(talk(phrases).turns.at(-1)?.reply.effect).toBe(effect),
  );
});

describe("without limits nothing is judged, and the answer says so", () => {
  const cases: [string, Partial<VisitHead>, string][] = [
    ["no sheet", { sheet: null }, "C O 2 nine point two, C O forty. No sheet, not judged."],
    [
      "a sheet for another gas",
      { fuel: "propane", sheet: PRESSURE_SHEET },
      "C O 2 nine point two, C O forty. This sheet has no limits for propane.",
    ],
  ];
  it.each(cases)("%s", (_name, changes, expected) => expect(answer([proved], changes)).toBe(expected));
});

describe("what was assumed is said with the number", () => {
  const pressures = { sheet: PRESSURE_SHEET };
  const cases: [string, string[], Partial<VisitHead>, RegExp][] = [
    [
      "inches in a US visit",
      ["static gas pressure seven point two"],
      { ...pressures, units: "us" },
      /inches of water/,
    ],
    ["millibar in an SI visit", ["static gas pressure eighteen"], { ...pressures, units: "si" }, /millibar/],
    ["static before the burner runs", ["inlet gas pressure seven inches"], pressures, /[Ss]tatic/],
  ];
  it.each(cases)("%s", (_name, phrases, changes, expected) =>
    expect(answer(phrases, changes)).toMatch(expected),
  );
});
