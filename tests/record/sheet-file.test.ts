import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exportSheet, readSheet, sheetFileName } from "../../src/record/sheet-file.ts";
import { anySheet } from "./arbitrary.ts";
import { edited } from "./edit.ts";
import { SHEET } from "./visit.ts";

const GAS = "fuels.natural-gas";

test("any sound sheet is read as it stands", () => {
  fc.assert(
    fc.property(anySheet, (sheet) => {
      expect(readSheet(JSON.stringify(sheet))).toEqual({ ok: true, sheet });
    }),
  );
});

test("a sheet goes out and comes in again as it was, and equal sheets give equal text", () => {
  fc.assert(
    fc.property(anySheet, (sheet) => {
      const text = exportSheet(sheet);
      expect(readSheet(text)).toEqual({ ok: true, sheet });
      const fuels = Object.fromEntries(Object.entries(sheet.fuels).reverse());
      expect(exportSheet({ ...sheet, fuels })).toBe(text);
      expect(text.endsWith("}\n")).toBe(true);
    }),
  );
});

// Letters and figures only: what stands in the way on one system or another ( \\ / : * ? " < > | and the like) is left out.
test.each([
  ["Demo wall-hung 35 kW, natural gas", "limits-sheet-demo-wall-hung-35-kw-natural-gas.json"],
  ["Kessel Straße 1 / Süd", "limits-sheet-kessel-straße-1-süd.json"],
  ["../../etc/passwd", "limits-sheet-etc-passwd.json"],
  ['a\\b:c*d?"e<f>g|h', "limits-sheet-a-b-c-d-e-f-g-h.json"],
  ["   ", "limits-sheet-untitled.json"],
  ["…", "limits-sheet-untitled.json"],
  ["ボイラー 7", "limits-sheet-ボイラー-7.json"],
  ["x".repeat(120), `limits-sheet-${"x".repeat(60)}.json`],
  [`${"x".repeat(59)} yz`, `limits-sheet-${"x".repeat(59)}.json`],
])("the file of %j is %s", (title, name) => expect(sheetFileName(title)).toBe(name));

describe("what is unusual but can be so is not refused", () => {
  test.each([
    [`${GAS}.high.co2.min`, 9.5], // a band of one point
    [`${GAS}.high.co2.min`, 0],
    [`${GAS}.high.co2.max`, 20],
    [`${GAS}.high.co2`, { min: 2, max: 19, unit: "%" }],
    [`${GAS}.high`, {}],
    [`${GAS}.low.co2`, { belowHigh: { min: -1, max: 1 }, unit: "%" }],
    [`${GAS}.low.co2`, { min: 8, max: 9, unit: "%" }],
    [`${GAS}.low.co2`, { max: 9, unit: "%" }],
    [`${GAS}.gas-pressure-inlet`, undefined],
    [`${GAS}.gas-pressure-inlet.static.max`, 40], // inches of water: just under 100 mbar
    ["adjusters.high.percentPerTurn", null],
    ["settleSeconds.high", 0],
    ["closing", []],
    ["source.page", ""],
  ])("%s = %j", (path, value) => {
    expect(problemsWith(path, value)).toEqual([]);
  });
});

describe("what is wrong is told with place, expectation and finding", () => {
  test.each([
    [
      `${GAS}.high.co2.min`,
      9.6,
      `${GAS}.high.co2`,
      'Expected min not above max, found {"min":9.6,"max":9.5,"unit":"%"}.',
    ],
    [`${GAS}.high.co2.min`, -0.1, `${GAS}.high.co2.min`, "Expected CO2 from 0 to 20 %, found -0.1."],
    [`${GAS}.high.co2.max`, 20.1, `${GAS}.high.co2.max`, "Expected CO2 from 0 to 20 %, found 20.1."],
    [`${GAS}.high.co2.max`, "9.5", `${GAS}.high.co2.max`, 'Expected a number, found "9.5".'],
    [`${GAS}.high.co2.unit`, "[ppm]", `${GAS}.high.co2.unit`, 'Expected "%", found "[ppm]".'],
    [`${GAS}.high.co2`, { unit: "%" }, `${GAS}.high.co2`, 'Expected min, max or both, found {"unit":"%"}.'],
    [`${GAS}.high.co.max`, null, `${GAS}.high.co.max`, "Expected a number, found null."],
    [`${GAS}.high.no`, {}, `${GAS}.high.no`, 'Expected only fields that this format has, found "no".'],
    [
      `${GAS}.low.co2.belowHigh.max`,
      "0.4",
      `${GAS}.low.co2.belowHigh.max`,
      'Expected a number, found "0.4".',
    ],
    [
      `${GAS}.low.co2.belowHigh.max`,
      -1,
      `${GAS}.low.co2.belowHigh`,
      'Expected min not above max, found {"min":0,"max":-1}.',
    ],
    [`${GAS}.low.co2`, { min: "8", unit: "%" }, `${GAS}.low.co2.min`, 'Expected a number, found "8".'],
    [`${GAS}.low.co2`, 8, `${GAS}.low.co2`, "Expected an object {…}, found 8."],
    [
      `${GAS}.gas-pressure-inlet.static.max`,
      41,
      `${GAS}.gas-pressure-inlet.static.max`,
      "Expected Inlet gas pressure from 0 to 100 mbar, found 41.",
    ],
    [
      `${GAS}.gas-pressure-inlet.maxDrop`,
      { value: 1, unit: "%" },
      `${GAS}.gas-pressure-inlet.maxDrop.unit`,
      `Expected one of "mbar", "[in_i'H2O]", "kPa", "Pa", "[psi]", found "%".`,
    ],
    [
      `${GAS}.gas-pressure-inlet.maxDrop`,
      { value: 0, unit: "Pa" },
      `${GAS}.gas-pressure-inlet.maxDrop.value`,
      "Expected a number above 0, found 0.",
    ],
    ["fuels", {}, "fuels", "Expected at least one fuel, found {}."],
    ["fuels.coal", {}, "fuels.coal", 'Expected only fields that this format has, found "coal".'],
    [
      "adjusters.high.co2Rises",
      "left",
      "adjusters.high.co2Rises",
      'Expected one of "clockwise", "counterclockwise", found "left".',
    ],
    [
      "adjusters.high.largestStepTurns",
      5.1,
      "adjusters.high.largestStepTurns",
      "Expected a number at most 5, found 5.1.",
    ],
    [
      "adjusters.high.percentPerTurn",
      undefined,
      "adjusters.high.percentPerTurn",
      "Expected a number, but the field is missing.",
    ],
    ["adjusters.high.underCap", "yes", "adjusters.high.underCap", 'Expected true or false, found "yes".'],
    ["settleSeconds.low", -1, "settleSeconds.low", "Expected a number at least 0, found -1."],
    ["closing[0]", "kettle", "closing[0]", `Expected one of ${CLOSING()}, found "kettle".`],
    [
      "source.enteredOn",
      "2026-02-29",
      "source.enteredOn",
      'Expected a day such as 2026-11-25, found "2026-02-29".',
    ],
    ["source.enteredBy", "", "source.enteredBy", 'Expected text of at least 1 character, found "".'],
    ["id", "x".repeat(81), "id", `Expected text of at most 80 characters, found "${"x".repeat(60)}…".`],
    [
      "format",
      "burnerside-sheet/9",
      "format",
      'Expected version "burnerside-sheet/1" of the limits sheet, the only one that this program reads, found "burnerside-sheet/9".',
    ],
    [
      "format",
      "burnerside-visit/1",
      "format",
      'Expected a limits sheet ("burnerside-sheet/1"), found a visit bundle.',
    ],
    [
      "odd name\u202e",
      1,
      '["odd name\\u{202e}"]',
      'Expected only fields that this format has, found "odd name\\u{202e}".',
    ],
  ])("%s = %j", (path, value, at, message) => {
    expect(problemsWith(path, value)).toEqual([{ path: at, message }]);
  });

  test("all at once", () => {
    const broken = edited(
      edited(edited(SHEET, `${GAS}.high.co2.min`, 9.6), `${GAS}.high.co.unit`, "%"),
      "title",
      3,
    );
    expect(problemsIn(JSON.stringify(broken)).map(({ path }) => path)).toEqual([
      "title",
      `${GAS}.high.co2`,
      `${GAS}.high.co.unit`,
    ]);
  });

  test("a sheet of more than 1 MiB is not read", () => {
    const text = JSON.stringify(SHEET).padEnd(1024 * 1024);
    expect(problemsIn(text)).toEqual([]);
    expect(problemsIn(`${text} `)).toEqual([
      { path: "", message: "Expected a limits sheet of at most 1 MiB, found 1.1 MiB." },
    ]);
  });
});

function CLOSING(): string {
  return SHEET.closing.map((check) => `"${check}"`).join(", ");
}

function problemsWith(path: string, value: unknown) {
  return problemsIn(JSON.stringify(edited(SHEET, path, value)));
}

function problemsIn(text: string) {
  const read = readSheet(text);
  return read.ok ? [] : read.problems;
}
