import { describe, expect, test } from "vitest";
import { firstDetails, tidied, tidiedInstrument } from "../../../src/app/record/given-details.ts";
import { Details, NO_DETAILS } from "../../../src/visit/details.ts";

const ANALYSER = { name: "Analyser", serial: "A1", calibratedOn: "2026-01-02" };

describe("what a new visit's record starts with", () => {
  const first = (
    appliance: string,
    place: string,
    technician: string,
    instrument: typeof ANALYSER | null = null,
    { licence, firm } = { licence: "", firm: "" },
  ) => firstDetails({ appliance, place }, { technician, licence, firm, instrument });
  test("nothing known, nothing kept", () => expect(first("", " ", "")).toBeNull());
  test.each([
    ["the appliance", first("B7", "", ""), { ...NO_DETAILS, appliance: "B7" }],
    ["the place", first("", " Mill ", ""), { ...NO_DETAILS, place: "Mill" }],
    ["the technician", first("", "", "Ada"), { ...NO_DETAILS, technician: "Ada" }],
    [
      "the licence",
      first("", "", "", null, { licence: " 0417 ", firm: "" }),
      { ...NO_DETAILS, licence: "0417" },
    ],
    [
      "the firm",
      first("", "", "", null, { licence: "", firm: "Tallowbeck\nHeating" }),
      { ...NO_DETAILS, firm: "Tallowbeck Heating" },
    ],
    ["the instrument", first("", "", "", ANALYSER), { ...NO_DETAILS, instrument: ANALYSER }],
  ])("%s alone is enough", (_, details, expected) => expect(details).toEqual(expected));
});

describe("what was typed is kept as one short line", () => {
  const place = (text: string) => tidied({ ...NO_DETAILS, place: text }).place;
  test.each([
    ["  Mill  lane ", "Mill  lane"],
    ["Mill\tlane\u0000", "Mill lane"],
    ["x".repeat(121), "x".repeat(120)],
    [`${"x".repeat(119)}🔥`, "x".repeat(119)],
  ])("%j: %j", (typed, kept) => {
    expect(place(typed)).toBe(kept);
    expect(Details.safeParse(tidied({ ...NO_DETAILS, place: typed })).success).toBe(true);
  });
});

test.each([
  [{ name: " ", serial: "", calibratedOn: null }, null],
  [
    { name: "", serial: "", calibratedOn: "2026-01-02" },
    { name: "", serial: "", calibratedOn: "2026-01-02" },
  ],
  [
    { name: "A", serial: " 7 ", calibratedOn: null },
    { name: "A", serial: "7", calibratedOn: null },
  ],
])("an instrument that nothing is known of is none: %j", (typed, kept) =>
  expect(tidiedInstrument(typed)).toEqual(kept),
);
