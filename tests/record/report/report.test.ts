import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CAUTIONS } from "../../../src/record/cautions.ts";
import type { Examined, Misfit } from "../../../src/record/integrity/finding.ts";
import { WHAT_ALTERED_MEANS, WHAT_IT_PROVES } from "../../../src/record/integrity/words.ts";
import { PROGRAM } from "../../../src/record/program.ts";
import { type Report, SECTION_IDS } from "../../../src/record/report/parts.ts";
import { reportOf } from "../../../src/record/report/report.ts";
import type { Amendment } from "../../../src/visit/by-hand.ts";
import { NO_DETAILS } from "../../../src/visit/details.ts";
import type { VisitHead } from "../../../src/visit/visit.ts";
import { byHand, mend, type OfPlace } from "../../support/by-hand.ts";
import { longVisit } from "../../support/long-visit.ts";
import { PRESSURE_SHEET, sheet } from "../../support/sheets.ts";
import { time } from "../../support/visits.ts";
import { line, lines, NOT_LINKED } from "./sections.ts";

/** The record of phrases, a hundred seconds apart from 08:00 UTC on, and of what was done by hand afterwards. */
const record = (
  phrases: readonly string[],
  done: readonly (OfPlace | Amendment)[] = [],
  changes: Partial<VisitHead> = {},
): Report => reportOf(byHand(phrases, done, { sheet: sheet(), ...changes }).visit, time(8000), NOT_LINKED);

const given = (details: Partial<typeof NO_DETAILS>): Amendment => ({
  kind: "details",
  details: { ...NO_DETAILS, ...details },
});

describe("times that run backwards", () => {
  const setBack = (by: number, zone: string | null = "UTC") => {
    const { visit } = byHand(["high fire CO2 nine point two", "CO forty", "CO fifty"], [], { zone });
    const entries = visit.entries.map((entry, place) =>
      place === 2 ? { ...entry, at: time(200 - by) } : entry,
    );
    return line(reportOf({ ...visit, entries }, time(8000), NOT_LINKED), "visit", "Times run backwards");
  };
  test("are said with their place", () =>
    expect(setBack(3600)).toBe(
      "Times run backwards: at entry 3, 25 Nov 2026, 07:03 after 25 Nov 2026, 08:03 (the clock of the device was set back; the order is that of the entries)",
    ));
  test("by a few seconds are not", () => expect(setBack(4)).toBeUndefined());
  test("where they do not nothing is said", () => expect(setBack(-60)).toBeUndefined());
});

describe("who, where and with what", () => {
  test("every section is there, in order, whatever was said", () =>
    expect(record([]).sections.map(({ id }) => id)).toEqual(SECTION_IDS));
  test("what was not given is said not to be", () => {
    expect(lines(record([], [], { sheet: null }), "appliance")).toEqual([
      "Appliance number: not given",
      "Place: not given",
      "Gas: Natural gas",
      "Limits sheet: none: nothing was judged",
    ]);
    expect(lines(record([]), "instrument")).toEqual([
      "Instrument: not given",
      "Calibrated on: calibration date not given",
    ]);
    expect(lines(record([]), "visit")).toContain("Technician: not given");
  });
  test.each<[what: string, Partial<typeof NO_DETAILS>, said: string]>([
    [
      "all of it",
      { technician: "Ada Quill", licence: "0417", firm: "Tallowbeck Heating" },
      "Technician: Ada Quill, Tallowbeck Heating, licence or registration number 0417",
    ],
    [
      "no firm",
      { technician: "Ada Quill", licence: "0417" },
      "Technician: Ada Quill, licence or registration number 0417",
    ],
    [
      "no licence",
      { technician: "Ada Quill", firm: "Tallowbeck Heating" },
      "Technician: Ada Quill, Tallowbeck Heating (licence or registration number not given)",
    ],
    [
      "a licence alone",
      { licence: "0417" },
      "Technician: name not given, licence or registration number 0417",
    ],
    [
      "blanks alone",
      { licence: " ", firm: "Tallowbeck Heating" },
      "Technician: name not given, Tallowbeck Heating (licence or registration number not given)",
    ],
    [
      "turned the other way",
      { technician: "Ada\u202E Quill", licence: "0417\u202E" },
      "Technician: Ada□ Quill, licence or registration number 0417□",
    ],
  ])("who did the work, %s", (_, details, said) =>
    expect(line(record([], [given(details)]), "visit", "Technician")).toBe(said),
  );
  test("what was given, with the sheet's source", () => {
    const instrument = { name: "Analyser", serial: "A1", calibratedOn: "2026-08-20" };
    const full = record(
      [],
      [given({ appliance: "B-7", place: "Mill", technician: "Ada Quill", instrument })],
    );
    expect(lines(full, "appliance")).toEqual([
      "Appliance number: B-7",
      "Place: Mill",
      "Gas: Natural gas",
      "Limits sheet: Test wall-hung 35 kW (From: invented for tests, edition 1, page 1. Entered by tt on 25 Nov 2026.)",
    ]);
    expect(lines(full, "visit")).toContain(
      "Technician: Ada Quill (licence or registration number not given)",
    );
    expect(lines(full, "instrument")).toEqual([
      "Instrument: Analyser",
      "Serial number: A1",
      "Calibrated on: 20 Aug 2026 (3 months before the visit)",
    ]);
  });
  test("times are those of the place, with its zone", () =>
    expect(line(record(["high fire"], [], { zone: "Europe/Vienna" }), "visit", "Begun")).toBe(
      "Begun, last entry: 09:00:00, 09:01:40 (Europe/Vienna)",
    ));
  test("a zone that nobody knows is taken as UTC", () =>
    expect(line(record(["high fire"], [], { zone: "Mars/Base" }), "visit", "Begun")).toBe(
      "Begun, last entry: 08:00:00, 08:01:40 (UTC)",
    ));
});

describe("what was found and left", () => {
  const all = record([
    "high fire CO2 8.3, CO 40",
    "half a turn in",
    "CO2 9.1, CO 45",
    "low fire CO2 9.0, CO 20",
    "room CO 2",
  ]);
  test("each with its limit, its verdict and what was assumed", () =>
    expect(lines(all, "readings")).toEqual([
      "CO2, high fire | 8.7 to 9.7 % | 8.3 % [fail] | 9.1 % [pass] (firing assumed)",
      "CO2, low fire | 8.8 to 9.1 % | not read before the first turn | 9 % [pass]",
      "CO, high fire | up to 175 ppm | 40 ppm [pass] | 45 ppm [pass] (firing assumed)",
      "CO, low fire | up to 175 ppm | not read before the first turn | 20 ppm [pass]",
      "Room CO | warned from 9 ppm | 2 ppm | 2 ppm",
    ]));
  test("a mended value says what it was; a confirmed one was never another", () => {
    expect(line(record(["high fire CO2 8.3"], [mend(0, "8.9")]), "readings", "CO2")).toBe(
      "CO2, high fire | 8.7 to 9.7 % | 8.9 % [pass] (mended, was 8.3 %) | 8.9 % [pass] (mended, was 8.3 %)",
    );
    expect(
      line(record(["high fire CO2 8.9"], [{ kind: "confirm", of: 0 }]), "readings", "CO2"),
    ).not.toContain("was");
  });
  test("what failed and was read again before a screw was turned does not vanish", () =>
    expect(line(record(["high fire CO 260", "CO 250"]), "readings", "CO,")).toBe(
      "CO, high fire | up to 175 ppm | 250 ppm [fail] (260 ppm out of limits before it; firing assumed) | 250 ppm [fail] (firing assumed)",
    ));
  test("room CO was found as read first, left as read last, with the highest between", () =>
    expect(line(record(["room CO 12", "room CO 80", "room CO 30", "room CO 5"]), "readings", "Room")).toBe(
      "Room CO | warned from 9 ppm | 12 ppm | 5 ppm (highest 80 ppm at 08:03:20)",
    ));
  test("gas pressure that failed between is told", () => {
    const said = [
      "static gas pressure 7 inches",
      "static gas pressure 3 inches",
      "static gas pressure 8 inches",
    ];
    const report = record(said, [], { sheet: PRESSURE_SHEET });
    expect(line(report, "gas-pressure", "Static")).toBe(
      "Static inlet gas pressure | 4.5 to 14 in. w.c. | 7 in. w.c. [pass] | 8 in. w.c. [pass] (3 in. w.c. out of limits in between)",
    );
  });
  test("a reading before the settle time is over is too early, not passed", () =>
    expect(line(record(["@0 high fire CO2 8.3", "@10 half in", "@20 CO2 9.1"]), "readings", "CO2")).toContain(
      "9.1 % [wait]",
    ));
  test("nothing read", () => expect(lines(record(["high fire"]), "readings")).toEqual(["Nothing was read."]));
});

describe("gas pressure", () => {
  const pressure = (...phrases: string[]) =>
    lines(record(phrases, [], { sheet: PRESSURE_SHEET }), "gas-pressure");
  test("not read", () => expect(pressure()).toEqual(["The gas pressure was not read."]));
  test("static, dynamic and how far it falls, at the limit and above it", () => {
    expect(pressure("static gas pressure 7 inches", "high fire", "dynamic gas pressure 6 inches")).toEqual([
      "Static inlet gas pressure | 4.5 to 14 in. w.c. | 7 in. w.c. [pass] | 7 in. w.c. [pass]",
      "Dynamic inlet gas pressure, high fire | 4 to 14 in. w.c. | 6 in. w.c. [pass] (firing assumed) | 6 in. w.c. [pass] (firing assumed)",
      "Falls from static to dynamic by | up to 1 in. w.c. | – | 1 in. w.c. [pass]",
    ]);
    expect(pressure("static gas pressure 7 inches", "dynamic gas pressure 5.9 inches").at(-1)).toBe(
      "Falls from static to dynamic by | up to 1 in. w.c. | – | 1.1 in. w.c. [fail]",
    );
  });
  test("of one pressure alone no fall is told", () =>
    expect(pressure("static gas pressure 7 inches")).toHaveLength(1));
});

describe("turns", () => {
  test("none", () => expect(lines(record(["high fire"]), "turns")).toEqual(["No screw was turned."]));
  test("the signed sum, how many, and each with its time, way and what was assumed", () =>
    expect(
      lines(
        record(["high fire", "high screw half in", "high screw quarter out", "a tenth clockwise"]),
        "turns",
      ),
    ).toEqual([
      "High-fire screw | 0.35 turn clockwise | 3 | 08:03:20 ½ ↻; 08:05:00 ¼ ↺; 08:06:40 1/10 ↻ (screw assumed)",
      "Low-fire screw | not turned | 0 | –",
    ]));
  test("there and back again", () =>
    expect(line(record(["high screw a tenth in", "high screw a tenth out"]), "turns", "High")).toContain(
      "back where it was",
    ));
  test("a screw turned in the other firing says so", () =>
    expect(line(record(["high fire", "low screw a tenth in"]), "turns", "Low")).toContain(
      "burner at high fire",
    ));
});

describe("warnings", () => {
  test("none", () => expect(lines(record(["room CO 2"]), "warnings")).toEqual(["None was raised."]));
  test("when it was taken note of, and the next reading of what it is about", () =>
    expect(lines(record(["room CO 12", "acknowledged", "high fire CO2 9", "room CO 1"]), "warnings")[0]).toBe(
      "08:01:40 | Room CO 12. Look for the source. | 08:03:20 | Room CO 1 ppm (08:06:40)",
    ));
  test("a smell of gas: the leak check, else what was done next", () => {
    const said = ["gas smell", "room CO 1", "leak check done"];
    expect(lines(record(said), "warnings")[0]).toMatch(/Leak check made: done \(08:05:00\)$/);
    expect(lines(record(said.slice(0, 2)), "warnings")[0]).toMatch(/Room CO 1 ppm \(08:03:20\)$/);
  });
  test("what was read too early: the same read again, and nothing else", () => {
    const said = ["@0 high fire CO2 8.3", "@200 half in", "@205 CO2 9.1", "@210 flue temperature 120"];
    const followed = (...more: string[]) =>
      lines(record([...said, ...more]), "warnings").find((text) => text.includes("Too early"));
    expect(followed()).toMatch(/not read again$/);
    expect(followed("@400 CO2 9.0")).toMatch(/CO2 9 %, high fire \(08:06:40\)$/);
  });
  test("else what was read or turned next; or nothing", () => {
    expect(lines(record(["room CO 12", "high fire CO2 9"]), "warnings")[0]).toMatch(
      /not acknowledged \| CO2 9 %, high fire \(08:03:20\)$/,
    );
    expect(lines(record(["room CO 12"]), "warnings")[0]).toMatch(/nothing was read, turned or checked$/);
  });
});

describe("closing checks", () => {
  test("done, not said, denied, and opened again since", () => {
    expect(
      lines(record(["low fire cap is on", "test mode off", "test mode isn't off yet"]), "closing"),
    ).toEqual([
      "Low-fire screw cap back on: done 08:01:40",
      "Test mode off: OPEN: said not to be, 08:05:00",
      "Flue test port plugged: OPEN: not said",
    ]);
    expect(line(record(["test port is plugged", "high fire CO2 9"]), "closing", "Flue")).toBe(
      "Flue test port plugged: OPEN: done 08:01:40, opened again since",
    );
  });
  test("what was confirmed before the test is a list of its own, after them", () =>
    expect(lines(record(["analyser zeroed"]), "closing").slice(-2)).toEqual([
      "Confirmed before the test",
      "Analyser zeroed in fresh air: done 08:01:40",
    ]));
  test("what the sheet does not ask for is told where it was said, and is not open", () => {
    expect(line(record(["panel is on"]), "closing", "Panel")).toBe(
      "Panel back on: done 08:01:40 (not asked for by the sheet)",
    );
    expect(line(record([]), "closing", "Panel")).toBeUndefined();
  });
});

describe("notes, corrections, what is open, review", () => {
  test("a note in its words, and what follows from it", () =>
    expect(lines(record(["note replace the condensate trap gasket next Tuesday"]), "notes")).toEqual([
      "08:01:40 | “replace the condensate trap gasket next Tuesday” | Follow-up: replace condensate trap gasket, 1 Dec 2026",
    ]));
  test("a day that nobody named is not made up", () =>
    expect(lines(record(["note clean the burner before the heating season"]), "notes")[0]).toMatch(
      /Follow-up: clean burner, “before the heating season”, no day named$/,
    ));
  test("what was struck and mended is told, with what it was", () =>
    expect(lines(record(["high fire CO2 9", "CO 40", "scratch that"], [mend(0, "9.2")]), "changed")).toEqual([
      "Struck: 08:03:20 CO 40 ppm, high fire",
      "Mended: 08:01:40 CO2 9 %, high fire, now CO2 9.2 %, high fire",
    ]));
  test("nothing struck, nothing mended", () =>
    expect(lines(record(["high fire"]), "changed")).toEqual(["Nothing was struck, mended or changed."]));
  test("details that were given or changed after the visit began are told, with what they were", () => {
    const plate = (calibratedOn: string) => ({ name: "Analyser", serial: "", calibratedOn });
    const changed = record(
      ["high fire"],
      [
        given({ instrument: plate("2025-09-30") }),
        given({ appliance: "K-9", licence: "0417", firm: "Own firm", instrument: plate("2027-03-01") }),
      ],
    );
    expect(lines(changed, "changed")).toEqual([
      expect.stringMatching(/^Details: .*09:00(:00)? Instrument not given, now Analyser$/),
      expect.stringMatching(/^Details: .* Calibrated on not given, now 30 Sept? 2025$/),
      expect.stringMatching(/^Details: .* Appliance number not given, now K-9$/),
      expect.stringMatching(/^Details: .* Licence or registration number not given, now 0417$/),
      expect.stringMatching(/^Details: .* Firm not given, now Own firm$/),
      expect.stringMatching(/^Details: .* Calibrated on 30 Sept? 2025, now 1 Mar 2027$/),
    ]);
    expect(line(changed, "instrument", "Calibrated")).toContain("after the day of the visit: check the date");
  });
  test("those that the visit began with were never others", () => {
    const { visit } = byHand([], [given({ place: "Mill" })], { sheet: sheet() });
    expect(lines(reportOf(visit, time(8000), NOT_LINKED), "changed")).toEqual([
      "Nothing was struck, mended or changed.",
    ]);
  });
  test("what was not understood is open until it is settled", () => {
    const said = ["high fire CO2 9", "CO2 ninety two percent"];
    expect(lines(record(said), "open")).toContain(
      "Not understood: “CO2 ninety two percent”: CO2 cannot be 92 %.",
    );
    expect(lines(record(said, [{ kind: "leave-out", of: 1 }]), "open").join()).not.toContain("ninety two");
  });
  test.each<[string, Amendment[], RegExp]>([
    ["not reviewed", [], /^Found right by: nobody: not reviewed$/],
    [
      "reviewed",
      [{ kind: "review", by: "Ada Quill" }],
      /^Found right by: Ada Quill, 25 Nov 2026,? (at )?09:00$/,
    ],
    [
      "changed since",
      [{ kind: "review", by: "Ada Quill" }, given({ place: "Mill" })],
      /^Found right by: nobody: not reviewed \(Found right by Ada Quill, .*, and changed since\)$/,
    ],
  ])("%s", (_, done, expected) => expect(lines(record(["high fire"], done), "review")[0]).toMatch(expected));
  test("how it stands in one sentence", () => {
    expect(record(["high fire"]).stand).toMatch(/^Not finished; \d+ things are open\.$/);
    expect(
      record([
        "high fire CO2 9.2, CO 40",
        "low fire CO2 9, CO 30",
        "low fire cap is on",
        "test mode off",
        "test port is plugged",
        "finish visit",
      ]).stand,
    ).toBe("Finished; nothing is open.");
  });
});

test("the cautions of the app, and what the record is and is not", () => {
  const { foot, program } = record([]);
  expect(lines(record([]), "cautions")).toEqual(CAUTIONS);
  expect(foot[0]).toBe("This is a record of what was said and logged. It is not a certificate.");
  expect(foot[1]).toMatch(/^Burnerside [\d.]+, format burnerside-visit\/1, visit visit-1, 0 entries, made /);
  expect(program).toBe(`Burnerside ${JSON.parse(readFileSync("package.json", "utf8")).version}`);
  expect(PROGRAM).toBe(program);
});

describe("the log", () => {
  const { visit } = byHand(["high fire CO2 9", "CO forty"], [], { sheet: sheet() });
  const of = (examined: Examined) => reportOf(visit, time(8000), examined);

  test("unsigned: its sentences, what a whole one would prove, and nothing above the record", () => {
    const report = of(NOT_LINKED);
    expect(lines(report, "log")).toEqual([
      "The log is: unsigned",
      "Nobody signed it, and it holds nothing to check it by: whether it was changed cannot be told.",
      WHAT_IT_PROVES,
    ]);
    expect(report.notice).toBe("");
  });

  test("whole: nothing above the record", () => {
    const key = "A".repeat(43);
    const signed = [{ key, entries: 2, at: time(7000) }];
    const report = of({
      finding: { kind: "whole", signed, signedEntries: 2, entries: 2, takenIn: 0 },
      trouble: null,
    });
    expect(lines(report, "log").slice(0, 2)).toEqual([
      "The log is: whole",
      expect.stringMatching(
        /^Signed up to its last entry, entry 2, with key 0000 0000 0000 0000 0000 on 25 Nov/,
      ),
    ]);
    expect(report.notice).toBe("");
  });

  test.each<[misfits: Misfit[], notice: string]>([
    [
      [{ kind: "entry", seq: 1 }],
      "Altered: the log of this visit was changed afterwards. Entry 2 (“CO forty”) is not as it was logged.",
    ],
    [
      [
        { kind: "entry", seq: 1 },
        { kind: "signature", number: 0, why: "not-valid" },
      ],
      "Altered: the log of this visit was changed afterwards. Entry 2 (“CO forty”) is not as it was logged. There is more: see “Log”.",
    ],
  ])("altered: it stands above the record too (%j)", (misfits, notice) => {
    const report = of({ finding: { kind: "altered", misfits }, trouble: null });
    expect(lines(report, "log")[0]).toBe("The log is: altered");
    expect(lines(report, "log").at(-1)).toBe(WHAT_ALTERED_MEANS);
    expect(report.notice).toBe(notice);
  });

  test("not examined: it says why, and not that nobody signed it", () =>
    expect(lines(of({ finding: null, trouble: "no network" }), "log").slice(0, 2)).toEqual([
      "The log is: not examined",
      "Its log could not be examined: no network.",
    ]));
});

test("text that steers what stands around it moves nothing, and is not dropped without a sign", () => {
  const hostile = "mill\u202Egnp.exe\u2066\u0007\nnext <b>line</b>";
  const { name } = record([], [], { title: hostile });
  expect(name).toBe("mill□gnp.exe□□ next <b>line</b>");
});

test("of a visit of 2,000 entries everything is told in so many lines, and how much more there is", () => {
  const report = reportOf(longVisit(2000), time(90_000), NOT_LINKED);
  for (const { id } of report.sections) expect([id, lines(report, id).length < 200]).toEqual([id, true]);
  const all = report.sections.flatMap(({ id }) => lines(report, id)).join("\n");
  expect(all.match(/And \d+ more, all are in the exported visit\./g)?.length).toBeGreaterThan(3);
  expect(JSON.stringify(report.sections.filter(({ id }) => id !== "trace")).length).toBeLessThan(60_000);
});
