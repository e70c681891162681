import { expect, test } from "vitest";
import { checkSheet } from "../../../src/app/sheets/check.ts";
import { draftOf, emptyDraft } from "../../../src/app/sheets/draft.ts";
import { sheetInWords } from "../../../src/app/sheets/words.ts";
import { sheet, WITH_PRESSURE } from "../../support/sheets.ts";

const AROUND = { otherTitles: [], today: "2026-11-26" };

test("a whole sheet in plain words", () => {
  const one = sheet({ fuels: { "natural-gas": WITH_PRESSURE } });
  expect(sheetInWords(checkSheet(draftOf(one), AROUND).parts)).toEqual([
    {
      heading: "Natural gas",
      lines: [
        "High fire: CO2 8.7 to 9.7 %, CO up to 175 ppm.",
        "Low fire: CO2 the same as at high fire, or up to 0.3 % lower, CO up to 175 ppm.",
        "Gas pressure: static 4.5 to 14 in. w.c., dynamic 4 to 14 in. w.c., falling by at most 1 in. w.c.",
      ],
    },
    {
      heading: "Screws",
      lines: [
        "High-fire screw: clockwise raises CO2, about 0.33 % CO2 a turn, at most 1 turn at a time.",
        "Low-fire screw: clockwise raises CO2, the maker gives no figure for a turn, at most 1/10 turn at a time, under a cap.",
      ],
    },
    {
      heading: "Settling",
      lines: [
        "High fire: a reading counts from 60 s after a turn.",
        "Low fire: a reading counts from 60 s after a turn.",
      ],
    },
    {
      heading: "To be closed, in this order",
      lines: ["1. Low-fire screw cap back on", "2. Test mode off", "3. Flue test port plugged"],
    },
  ]);
});

test.each([
  [{ min: 0.1, max: 0.7 }, "CO2 0.1 to 0.7 % lower than at high fire"],
  [{ min: -0.2, max: 0.5 }, "CO2 from 0.5 % below to 0.2 % above the high-fire value"],
])("low fire %j is “%s”", (belowHigh, words) => {
  const limits = { high: {}, low: { co2: { belowHigh, unit: "%" as const } } };
  const { parts } = checkSheet(draftOf(sheet({ fuels: { propane: limits } })), AROUND);
  expect(sheetInWords(parts)[0]).toEqual({
    heading: "Propane",
    lines: ["High fire: no limit known.", `Low fire: ${words}.`, "Gas pressure: no limit known."],
  });
});

test("what cannot be read yet is called that, never a limit", () => {
  const draft = emptyDraft("n1", AROUND.today, "si");
  const gas = draft.fuels["natural-gas"];
  if (!gas) throw new Error("Expected natural gas in a new form.");
  const torn = {
    ...draft,
    fuels: {
      "natural-gas": { ...gas, high: { ...gas.high, co2: { min: "8.5x", max: "9.5", unit: "%" as const } } },
    },
  };
  const words = sheetInWords(checkSheet(torn, AROUND).parts);
  expect(words[0]).toEqual({
    heading: "Natural gas",
    lines: ["Not readable yet: something here has to be mended."],
  });
  expect(words[1]?.lines).toEqual([
    "High-fire screw: not readable yet.",
    "Low-fire screw: not readable yet.",
  ]);
});

test("a settling time that cannot be read is not one that was left out", () => {
  const draft = { ...draftOf(sheet()), settleSeconds: { high: "soon", low: "" } };
  const settling = sheetInWords(checkSheet(draft, AROUND).parts).find(
    ({ heading }) => heading === "Settling",
  );
  expect(settling?.lines).toEqual(["High fire: not readable yet.", "Low fire: not filled in yet."]);
});
