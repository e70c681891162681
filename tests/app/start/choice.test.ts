import { describe, expect, test } from "vitest";
import { fuelsOf, type SheetRow, sheetRows } from "../../../src/app/sheets/order.ts";
import {
  firstChoice,
  found,
  missing,
  renewed,
  type StartChoice,
  takeSentence,
} from "../../../src/app/start/choice.ts";
import { loadStartLanguage } from "../../../src/cli/language.ts";
import { startMeaning } from "../../../src/meaning/start.ts";
import type { Sheet } from "../../../src/visit/sheet.ts";
import type { VisitHead } from "../../../src/visit/visit.ts";
import { NATURAL_GAS, PROPANE, sheet } from "../../support/sheets.ts";
import { visitOf } from "../build.ts";

const gas = (id: string, title: string) => sheet({ id, title, fuels: { "natural-gas": NATURAL_GAS } });
const lpg = (id: string, title: string) => sheet({ id, title, fuels: { propane: PROPANE } });

const MILL = gas("mill", "Mill, wall-hung 35 kW");
const BARN = sheet({ id: "barn", title: "Barn, floor-standing 50 kW" });
const SHED = lpg("shed", "Shed, wall-hung 24 kW");
const DEMO = gas("demo", "Demo 35");
const used = (one: Sheet | null): VisitHead => ({ ...visitOf().head, sheet: one });

describe("the order of the sheets", () => {
  const order = (own: readonly Sheet[], visits: readonly VisitHead[]) =>
    sheetRows(own, [...own, DEMO], visits).map((row) => [row.number, row.sheet.id, row.isLast, row.isDemo]);
  test("own ones by title, then the demo's", () =>
    expect(order([SHED, MILL, BARN], [])).toEqual([
      [1, "barn", false, false],
      [2, "mill", false, false],
      [3, "shed", false, false],
      [4, "demo", false, true],
    ]));
  test("the last used first", () =>
    expect(
      order([SHED, MILL], [used(null), used(SHED), used(MILL)]).map(([, id, last]) => [id, last]),
    ).toEqual([
      ["shed", true],
      ["mill", false],
      ["demo", false],
    ]));
  test("a sheet that is gone is not the last used", () =>
    expect(order([MILL], [used(SHED), used(DEMO)]).map(([, id, last]) => [id, last])).toEqual([
      ["demo", true],
      ["mill", false],
    ]));
  test("numbers in titles count as numbers", () =>
    expect(order([gas("b", "Boiler 100"), gas("a", "Boiler 24")], []).map(([, id]) => id)).toEqual([
      "a",
      "b",
      "demo",
    ]));
});

test.each<[string, Sheet | null, readonly string[]]>([
  ["natural gas alone", MILL, ["natural-gas"]],
  ["propane alone", SHED, ["propane"]],
  ["both", BARN, ["natural-gas", "propane"]],
  ["without a sheet", null, ["natural-gas", "propane"]],
])("gases of a sheet: %s", (_, one, fuels) => expect(fuelsOf(one)).toEqual(fuels));

const rowsAfter = (last: Sheet | null): readonly SheetRow[] =>
  sheetRows([MILL, BARN, SHED], [MILL, BARN, SHED, DEMO], last ? [used(last)] : []);

describe("nothing dangerous is chosen unasked", () => {
  test.each<[string, Sheet | null, StartChoice]>([
    ["no visit yet", null, { sheet: null, fuel: null }],
    ["natural gas alone", MILL, { sheet: MILL, fuel: "natural-gas" }],
    ["both gases: the gas is asked", BARN, { sheet: BARN, fuel: null }],
    ["propane alone", SHED, { sheet: null, fuel: null }],
  ])("last used: %s", (_, last, choice) => expect(firstChoice(rowsAfter(last))).toEqual(choice));
});

const { piece } = loadStartLanguage();
// 1 Barn (both), 2 Mill (natural gas), 3 Shed (propane), 4 the demo's (natural gas)
const ROWS = rowsAfter(null);
const NOTHING: StartChoice = { sheet: null, fuel: null };

const outcome = (text: string, before: StartChoice = NOTHING, sure = true) => {
  const { choice, answer, starts } = takeSentence(before, ROWS, startMeaning(piece, text), sure);
  const id = choice.sheet === null || choice.sheet === "none" ? choice.sheet : choice.sheet.id;
  return [id, choice.fuel, starts, answer];
};

describe("a sentence", () => {
  test.each<[string, StartChoice, readonly unknown[]]>([
    [
      "sheet one, natural gas, go",
      NOTHING,
      ["barn", "natural-gas", true, "Sheet 1, Barn, floor-standing 50 kW; natural gas."],
    ],
    [
      "sheet 1 propane go",
      NOTHING,
      ["barn", "propane", true, "Sheet 1, Barn, floor-standing 50 kW; propane."],
    ],
    [
      "go, propane, sheet 1",
      NOTHING,
      ["barn", "propane", true, "Sheet 1, Barn, floor-standing 50 kW; propane."],
    ],
    ["no sheet, propane, go", NOTHING, ["none", "propane", true, "Without a sheet; propane."]],
    // The only gas of the sheet needs not be said.
    ["sheet two go", NOTHING, ["mill", "natural-gas", true, "Sheet 2, Mill, wall-hung 35 kW; natural gas."]],
    // By its title.
    [
      "the 35 kilowatt, go",
      NOTHING,
      ["mill", "natural-gas", true, "Sheet 2, Mill, wall-hung 35 kW; natural gas."],
    ],
    ["mill go", NOTHING, ["mill", "natural-gas", true, "Sheet 2, Mill, wall-hung 35 kW; natural gas."]],
    [
      "shed wall hung 24 propane go",
      NOTHING,
      ["shed", "propane", true, "Sheet 3, Shed, wall-hung 24 kW; propane."],
    ],
    // What is missing is asked for, and only that.
    ["sheet one go", NOTHING, ["barn", null, false, "Sheet 1, Barn, floor-standing 50 kW. Which gas?"]],
    [
      "propane",
      { sheet: BARN, fuel: null },
      ["barn", "propane", false, "Sheet 1, Barn, floor-standing 50 kW; propane. Say “go” to start."],
    ],
    [
      "go",
      { sheet: BARN, fuel: "propane" },
      ["barn", "propane", true, "Sheet 1, Barn, floor-standing 50 kW; propane."],
    ],
    ["propane go", NOTHING, [null, "propane", false, "Propane. Which sheet?"]],
    [
      "sheet one",
      { sheet: null, fuel: "propane" },
      ["barn", "propane", false, "Sheet 1, Barn, floor-standing 50 kW; propane. Say “go” to start."],
    ],
    [
      "sheet two, natural gas",
      NOTHING,
      ["mill", "natural-gas", false, "Sheet 2, Mill, wall-hung 35 kW; natural gas. Say “go” to start."],
    ],
    ["go", NOTHING, [null, null, false, "Which sheet?"]],
  ])("%s", (text, before, expected) => expect(outcome(text, before)).toEqual(expected));

  test("of another sheet takes no gas over from the one before", () =>
    expect(outcome("sheet one go", { sheet: MILL, fuel: "natural-gas" })).toEqual([
      "barn",
      null,
      false,
      "Sheet 1, Barn, floor-standing 50 kW. Which gas?",
    ]));
});

describe("starts nothing", () => {
  const chosen: StartChoice = { sheet: MILL, fuel: "natural-gas" };
  test.each<[string, StartChoice, string]>([
    ["sheet two propane go", NOTHING, "Sheet 2 has no limits for propane. Which gas?"],
    ["propane go", chosen, "Sheet 2 has no limits for propane. Which gas?"],
    ["sheet two go", { sheet: null, fuel: "propane" }, "Sheet 2 has no limits for propane. Which gas?"],
    ["sheet nine go", chosen, "There is no sheet 9: they go from 1 to 4."],
    ["wall hung go", NOTHING, "Which sheet: 2 or 3?"],
    ["35 go", NOTHING, "Which sheet: 2 or 4?"],
    ["castle go", chosen, "No sheet is called “castle”."],
    ["natural gas castle go", chosen, "No sheet is called “castle”."],
    ["sheet two castle go", NOTHING, "Not understood: “castle”. Say it once more."],
    ["sheet one, no, sheet two, go", NOTHING, "Not understood: “no sheet two”. Say it once more."],
    ["please", chosen, "Not understood. Say “go” to start."],
    ["", chosen, "Not understood. Say “go” to start."],
  ])("%s", (text, before, answer) => expect(outcome(text, before).slice(2)).toEqual([false, answer]));

  test("where it was not heard well, unless only “go” was left to say", () => {
    expect(outcome("sheet two natural gas go", NOTHING, false)).toEqual([
      "mill",
      "natural-gas",
      false,
      "Sheet 2, Mill, wall-hung 35 kW; natural gas. Say “go” to start.",
    ]);
    expect(outcome("go", chosen, false)[2]).toBe(true);
  });
});

test.each<[StartChoice, "sheet" | "fuel" | null]>([
  [NOTHING, "sheet"],
  [{ sheet: null, fuel: "propane" }, "sheet"],
  [{ sheet: BARN, fuel: null }, "fuel"],
  [{ sheet: "none", fuel: null }, "fuel"],
  [{ sheet: "none", fuel: "propane" }, null],
])("of %j is missing %j", (choice, part) => expect(missing(choice)).toBe(part));

describe("a choice among what is here now", () => {
  const leaner = { ...MILL, settleSeconds: { high: 90, low: 90 } };
  test.each<[string, StartChoice, readonly Sheet[], StartChoice]>([
    ["the same", { sheet: MILL, fuel: "natural-gas" }, [MILL, BARN], { sheet: MILL, fuel: "natural-gas" }],
    [
      "brought in anew",
      { sheet: MILL, fuel: "natural-gas" },
      [leaner],
      { sheet: leaner, fuel: "natural-gas" },
    ],
    ["gone", { sheet: MILL, fuel: "natural-gas" }, [BARN], NOTHING],
    [
      "for another gas now",
      { sheet: BARN, fuel: "natural-gas" },
      [{ ...SHED, id: "barn" }],
      { sheet: { ...SHED, id: "barn" }, fuel: "propane" },
    ],
    ["its gas is still open", { sheet: BARN, fuel: null }, [BARN], { sheet: BARN, fuel: null }],
    ["none", { sheet: "none", fuel: "propane" }, [BARN], { sheet: "none", fuel: "propane" }],
    ["a gas before any sheet", { sheet: null, fuel: "propane" }, [BARN], { sheet: null, fuel: "propane" }],
  ])("%s", (_, choice, own, expected) => expect(renewed(choice, sheetRows(own, own, []))).toEqual(expected));
});

describe("a search among many", () => {
  const many = sheetRows(
    [gas("z", "Zürich Wärmezentrale 35 kW"), MILL],
    [gas("z", "Zürich Wärmezentrale 35 kW"), MILL],
    [],
  );
  test.each<[string, readonly string[]]>([
    ["", ["mill", "z"]],
    ["  ", ["mill", "z"]],
    ["zurich", ["z"]],
    ["WÄRME 35", ["z"]],
    ["35", ["mill", "z"]],
    ["castle", []],
  ])("%j", (search, ids) => expect(found(many, search).map((row) => row.sheet.id)).toEqual(ids));
});
