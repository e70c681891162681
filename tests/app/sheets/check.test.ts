import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkSheet } from "../../../src/app/sheets/check.ts";
import { copyOf, draftOf, emptyDraft, type SheetDraft } from "../../../src/app/sheets/draft.ts";
import { fieldName } from "../../../src/app/sheets/fields.ts";
import type { FuelLimits, Sheet } from "../../../src/visit/sheet.ts";
import { anySheet } from "../../record/arbitrary.ts";
import { NATURAL_GAS, sheet, WITH_PRESSURE } from "../../support/sheets.ts";

const AROUND = { otherTitles: [], today: "2026-11-26" };
const GAS = "fuels.natural-gas";

/** The form of the test sheet for natural gas, after these texts were typed into its fields. */
function typed(texts: Readonly<Record<string, unknown>>, limits: FuelLimits = WITH_PRESSURE): SheetDraft {
  const draft: unknown = structuredClone(draftOf(sheet({ fuels: { "natural-gas": limits } })));
  for (const [path, text] of Object.entries(texts)) {
    const steps = path.split(".");
    const last = steps.pop() ?? "";
    const parent = steps.reduce((at, step) => Reflect.get(Object(at), step), draft);
    Reflect.set(Object(parent), last, text);
  }
  return draft as SheetDraft;
}

const problemsOf = (draft: SheetDraft) =>
  checkSheet(draft, AROUND).problems.map(({ path, message }) => `${path}: ${message}`);

describe("a sound form is a sheet", () => {
  test("as it was", () => {
    const whole = sheet({ fuels: { "natural-gas": WITH_PRESSURE } });
    expect(checkSheet(draftOf(whole), AROUND)).toMatchObject({ sheet: whole, problems: [] });
  });
  test.each<[string, Readonly<Record<string, unknown>>, (s: Sheet) => unknown, unknown]>([
    [
      "a decimal comma",
      { [`${GAS}.high.co2.min`]: "8,5" },
      (s) => s.fuels["natural-gas"]?.high.co2?.min,
      8.5,
    ],
    [
      "an emptied limit is none",
      { [`${GAS}.high.co.max`]: "" },
      (s) => s.fuels["natural-gas"]?.high,
      { co2: NATURAL_GAS.high.co2 },
    ],
    [
      "one end only",
      { [`${GAS}.high.co2.max`]: "" },
      (s) => s.fuels["natural-gas"]?.high.co2,
      { min: 8.7, unit: "%" },
    ],
    [
      "low fire as a band",
      { [`${GAS}.low.co2`]: { way: "band", min: "8,4", max: "9.4", unit: "%" } },
      (s) => s.fuels["natural-gas"]?.low.co2,
      { min: 8.4, max: 9.4, unit: "%" },
    ],
    [
      "low fire below high fire",
      { [`${GAS}.low.co2.max`]: "0,5" },
      (s) => s.fuels["natural-gas"]?.low.co2,
      { belowHigh: { min: 0, max: 0.5 }, unit: "%" },
    ],
    [
      "an eighth of a turn",
      { "adjusters.high.largestStepTurns": "1/8" },
      (s) => s.adjusters.high.largestStepTurns,
      0.125,
    ],
    [
      "no figure for a turn",
      { "adjusters.high.percentUnknown": true },
      (s) => s.adjusters.high.percentPerTurn,
      null,
    ],
    [
      "another unit",
      { [`${GAS}.gas-pressure-inlet.static.unit`]: "mbar" },
      (s) => s.fuels["natural-gas"]?.["gas-pressure-inlet"]?.static?.unit,
      "mbar",
    ],
    ["spaces around a name", { title: "  Boiler  " }, (s) => s.title, "Boiler"],
    [
      "checks in another order",
      { closing: ["test-port", "panel"] },
      (s) => s.closing,
      ["test-port", "panel"],
    ],
  ])("%s", (_, texts, of, expected) => {
    const checked = checkSheet(typed(texts), AROUND);
    expect(checked.problems).toEqual([]);
    expect(checked.sheet && of(checked.sheet)).toEqual(expected);
  });
});

describe("what is wrong is told at its field", () => {
  test.each<[string, Readonly<Record<string, unknown>>, string]>([
    [
      "no number",
      { [`${GAS}.high.co2.min`]: "8.5x" },
      `${GAS}.high.co2.min: Expected a number, found "8.5x".`,
    ],
    [
      "two ways to read it",
      { [`${GAS}.high.co.max`]: "1,500" },
      `${GAS}.high.co.max: Can be read in two ways: write 1500, or 1.5000.`,
    ],
    [
      "ends crossed",
      { [`${GAS}.high.co2.min`]: "9,8" },
      `${GAS}.high.co2: The lower end is above the upper one.`,
    ],
    [
      "out of what can be measured",
      { [`${GAS}.high.co2.max`]: "95" },
      `${GAS}.high.co2.max: Expected CO2 from 0 to 20 %, found 95.`,
    ],
    [
      "just outside",
      { [`${GAS}.high.co2.max`]: "20.1" },
      `${GAS}.high.co2.max: Expected CO2 from 0 to 20 %, found 20.1.`,
    ],
    [
      "half of below high fire",
      { [`${GAS}.low.co2.max`]: "" },
      `${GAS}.low.co2.belowHigh.max: Not filled in yet.`,
    ],
    [
      "below high fire, crossed",
      { [`${GAS}.low.co2.min`]: "0.9" },
      `${GAS}.low.co2.belowHigh: The lower end is above the upper one.`,
    ],
    ["no title", { title: " " }, "title: Not filled in yet."],
    [
      "a title too long",
      { title: "x".repeat(121) },
      `title: Expected text of at most 120 characters, found "${"x".repeat(60)}…".`,
    ],
    ["no document", { "source.document": "" }, "source.document: Not filled in yet."],
    ["nobody entered it", { "source.enteredBy": "" }, "source.enteredBy: Not filled in yet."],
    [
      "no day",
      { "source.enteredOn": "26.11.2026" },
      'source.enteredOn: Expected a day such as 2026-11-25, found "26.11.2026".',
    ],
    [
      "no such day",
      { "source.enteredOn": "2026-02-30" },
      'source.enteredOn: Expected a day such as 2026-11-25, found "2026-02-30".',
    ],
    ["no direction", { "adjusters.low.co2Rises": "" }, "adjusters.low.co2Rises: Not filled in yet."],
    [
      "neither a figure nor none",
      { "adjusters.high.percentPerTurn": "" },
      "adjusters.high.percentPerTurn: Not filled in yet.",
    ],
    [
      "a figure of nothing",
      { "adjusters.high.percentPerTurn": "0" },
      "adjusters.high.percentPerTurn: Expected a number above 0, found 0.",
    ],
    [
      "a step too large for any screw",
      { "adjusters.high.largestStepTurns": "6" },
      "adjusters.high.largestStepTurns: Expected a number at most 5, found 6.",
    ],
    ["no settling", { "settleSeconds.low": "" }, "settleSeconds.low: Not filled in yet."],
    [
      "settling backwards",
      { "settleSeconds.low": "-1" },
      "settleSeconds.low: Expected a number at least 0, found -1.",
    ],
    [
      "a fall of nothing",
      { [`${GAS}.gas-pressure-inlet.maxDrop.value`]: "0" },
      `${GAS}.gas-pressure-inlet.maxDrop.value: Expected a number above 0, found 0.`,
    ],
    ["no gas", { fuels: {} }, "fuels: At least one gas is needed."],
  ])("%s", (_, texts, expected) => {
    const draft = typed(texts);
    expect(problemsOf(draft)).toEqual([expected]);
    expect(checkSheet(draft, AROUND).sheet).toBeNull();
  });

  test("all at once, in the order of the form", () => {
    const texts = {
      "settleSeconds.high": "",
      title: "",
      "source.document": "",
      [`${GAS}.high.co2.min`]: "x",
    };
    expect(checkSheet(typed(texts), AROUND).problems.map(({ path }) => path)).toEqual([
      "source.document",
      "title",
      `${GAS}.high.co2.min`,
      "settleSeconds.high",
    ]);
  });

  test("a new form wants what no sheet is without, and no limit", () => {
    const { problems } = checkSheet(emptyDraft("n1", AROUND.today, "si"), AROUND);
    expect(problems.map(({ path, isEmpty }) => [path, isEmpty])).toEqual(
      [
        "source.document",
        "source.enteredBy",
        "title",
        "adjusters.high.co2Rises",
        "adjusters.high.percentPerTurn",
        "adjusters.high.largestStepTurns",
        "adjusters.low.co2Rises",
        "adjusters.low.percentPerTurn",
        "adjusters.low.largestStepTurns",
        "settleSeconds.high",
        "settleSeconds.low",
      ].map((path) => [path, true]),
    );
  });
});

describe("a copy", () => {
  const original = sheet({ title: "Boiler" });
  test("has an id, a title and a day of its own, and waits for who enters it", () =>
    expect(copyOf(original, "n2", "2026-11-26", false)).toMatchObject({
      id: "n2",
      title: "Copy of Boiler",
      source: {
        document: "invented for tests",
        edition: "1",
        page: "1",
        enteredBy: "",
        enteredOn: "2026-11-26",
      },
    }));
  test("of a demo sheet leaves no source behind", () =>
    expect(copyOf(original, "n2", "2026-11-26", true).source).toEqual({
      document: "",
      edition: "",
      page: "",
      enteredBy: "",
      enteredOn: "2026-11-26",
    }));
  test("has the same limits", () => {
    const draft = { ...copyOf(original, "n2", "2026-11-26", false) };
    const named = { ...draft, source: { ...draft.source, enteredBy: "tt" } };
    expect(checkSheet(named, AROUND).sheet).toMatchObject({
      fuels: original.fuels,
      adjusters: original.adjusters,
      settleSeconds: original.settleSeconds,
      closing: original.closing,
    });
  });
});

/** Any sheet, with numbers that can be printed, but for what a form tidies: spaces around texts, a check twice, what says nothing. */
const tidySheet = anySheet.map((any): Sheet => {
  const printed = (_: string, value: unknown) =>
    typeof value === "number" ? Number(value.toFixed(6)) + 0 : value;
  const one: Sheet = JSON.parse(JSON.stringify(any), printed);
  const { title, source, adjusters, closing, fuels } = one;
  const adjuster = ({ underCap, ...rest }: Sheet["adjusters"]["high"]) => ({
    ...rest,
    ...(underCap && { underCap }),
  });
  const limits = ({ "gas-pressure-inlet": pressure, ...rest }: FuelLimits) => ({
    ...rest,
    ...(pressure && Object.keys(pressure).length > 0 && { "gas-pressure-inlet": pressure }),
  });
  return {
    ...one,
    title: title.trim() || "Title",
    source: {
      ...source,
      document: source.document.trim() || "Document",
      edition: source.edition.trim(),
      page: source.page.trim(),
      enteredBy: source.enteredBy.trim() || "tt",
    },
    fuels: Object.fromEntries(Object.entries(fuels).map(([fuel, of]) => [fuel, limits(of)])),
    adjusters: { high: adjuster(adjusters.high), low: adjuster(adjusters.low) },
    closing: [...new Set(closing)],
  };
});

test("every sheet comes out of its form as it went in", () =>
  fc.assert(
    fc.property(tidySheet, (one) => {
      expect(checkSheet(draftOf(one), AROUND).sheet).toEqual(one);
    }),
  ));

test.each([
  ["source.document", "Document"],
  [`${GAS}.high.co2`, "Natural gas, high fire, CO2"],
  [`${GAS}.high.co2.min`, "Natural gas, high fire, CO2, from"],
  ["fuels.propane.low.co2.belowHigh.max", "Propane, low fire, CO2, below high fire, up to"],
  [`${GAS}.gas-pressure-inlet.maxDrop.value`, "Natural gas, largest fall of gas pressure"],
  [`${GAS}.gas-pressure-inlet.dynamic.min`, "Natural gas, dynamic gas pressure, from"],
  ["adjusters.low.co2Rises", "Low-fire screw, which way raises CO2"],
  ["settleSeconds.high", "Settling, high fire"],
])("%s is called %s", (path, name) => expect(fieldName(path)).toBe(name));

test("a field's own unit may stand behind its number", () => {
  const whole = draftOf(sheet());
  const { sheet: read, problems } = checkSheet(
    {
      ...whole,
      settleSeconds: { high: "90 s", low: "60 sec" },
      adjusters: { ...whole.adjusters, high: { ...whole.adjusters.high, largestStepTurns: "1/8 turn" } },
    },
    { otherTitles: [], today: "2026-11-26" },
  );
  expect(problems).toEqual([]);
  expect(read).toMatchObject({
    settleSeconds: { high: 90, low: 60 },
    adjusters: { high: { largestStepTurns: 0.125 } },
  });
});
