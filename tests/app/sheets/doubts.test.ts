import { describe, expect, test } from "vitest";
import { checkSheet } from "../../../src/app/sheets/check.ts";
import { draftOf } from "../../../src/app/sheets/draft.ts";
import type { FuelLimits, Sheet } from "../../../src/visit/sheet.ts";
import { NATURAL_GAS, PROPANE, sheet, WITH_PRESSURE } from "../../support/sheets.ts";

const allDoubts = (one: Sheet, otherTitles: readonly string[] = []) =>
  checkSheet(draftOf(one), { otherTitles, today: "2026-11-26" }).doubts.map(
    ({ path, message }) => `${path}: ${message}`,
  );

/** Most sheets here have no pressures, which is a doubt of its own. */
const NO_PRESSURE = "No limits for the gas pressure";
const doubts = (...of: Parameters<typeof allDoubts>) =>
  allDoubts(...of).filter((doubt) => !doubt.includes(NO_PRESSURE));

const GAS = "fuels.natural-gas";
const withGas = (limits: Partial<FuelLimits>) =>
  sheet({ fuels: { "natural-gas": { ...NATURAL_GAS, ...limits } } });
const high = (changes: Partial<FuelLimits["high"]>) => withGas({ high: { ...NATURAL_GAS.high, ...changes } });
const low = (changes: Partial<FuelLimits["low"]>) => withGas({ low: { ...NATURAL_GAS.low, ...changes } });
const co2 = (min: number, max: number) => high({ co2: { min, max, unit: "%" } });
const pressure = (changes: FuelLimits["gas-pressure-inlet"]) =>
  withGas({ "gas-pressure-inlet": { ...WITH_PRESSURE["gas-pressure-inlet"], ...changes } });

describe("a usual sheet gives no doubt", () => {
  test.each<[string, Sheet]>([
    ["both gases", sheet()],
    ["with pressures", sheet({ fuels: { "natural-gas": WITH_PRESSURE } })],
    ["propane alone", sheet({ fuels: { propane: PROPANE } })],
  ])("%s", (_, one) => expect(doubts(one)).toEqual([]));
});

describe("a gas without any gas pressure limits is doubted", () => {
  const of = (one: Sheet) => allDoubts(one).filter((doubt) => doubt.includes(NO_PRESSURE)).length;
  test.each<[string, Sheet, number]>([
    ["one gas without", sheet({ fuels: { propane: PROPANE } }), 1],
    ["one gas with", sheet({ fuels: { "natural-gas": WITH_PRESSURE } }), 0],
    ["one of two with", sheet({ fuels: { "natural-gas": WITH_PRESSURE, propane: PROPANE } }), 1],
  ])("%s", (_, one, count) => expect(of(one)).toBe(count));
});

// CO2max: natural gas 11.7 to 12, propane 13.7 to 13.8 % (from memory of flue-gas tables; computed in src/combustion).
const TOO_RICH = "at most about";
describe("what no flue gas of this gas can hold", () => {
  test.each<[string, Sheet, boolean]>([
    ["natural gas up to 11.5", co2(8.7, 11.5), false],
    ["natural gas up to 11.8", co2(8.7, 11.8), false],
    ["natural gas up to 12.5", co2(8.7, 12.5), true],
    [
      "propane up to 12.5",
      sheet({
        fuels: {
          propane: { ...PROPANE, high: { ...PROPANE.high, co2: { min: 9.5, max: 12.5, unit: "%" } } },
        },
      }),
      false,
    ],
    [
      "propane up to 14",
      sheet({
        fuels: { propane: { ...PROPANE, high: { ...PROPANE.high, co2: { min: 9.5, max: 14, unit: "%" } } } },
      }),
      true,
    ],
  ])("%s", (_, one, told) => expect(doubts(one).some((text) => text.includes(TOO_RICH))).toBe(told));
});

describe("O2 and CO2 of one firing belong together", () => {
  const text = "both cannot be met";
  // Methane: CO2 = CO2max (1 - O2/20.95), the usual dilution formula; O2 4 to 5.5 % is about 9.6 to 8.8 %.
  test.each<[string, Sheet, boolean]>([
    ["the same", high({ o2: { min: 4, max: 5.5, unit: "%" } }), false],
    ["rounded a little off", high({ o2: { min: 2, max: 3.5, unit: "%" } }), false],
    ["far leaner", high({ o2: { min: 9, max: 10, unit: "%" } }), true],
    ["far richer", high({ o2: { min: 0.5, max: 1.5, unit: "%" } }), true],
    ["one end only says too little", high({ o2: { max: 1.5, unit: "%" } }), false],
  ])("%s", (_, one, told) => expect(doubts(one).some((doubt) => doubt.includes(text))).toBe(told));
});

test.each<[string, Sheet, string]>([
  [
    "no CO2 for high fire",
    withGas({
      high: { co: { max: 150, unit: "[ppm]" } },
      low: { co2: { min: 8.5, max: 9.5, unit: "%" }, co: { max: 150, unit: "[ppm]" } },
    }),
    `${GAS}.high.co2: No CO2 for high fire: it will not be judged, and no turn advised.`,
  ],
  [
    "no CO2 for low fire",
    withGas({ low: { co: { max: 150, unit: "[ppm]" } } }),
    `${GAS}.low.co2: No CO2 for low fire: it will not be judged, and no turn advised.`,
  ],
  [
    "no CO for high fire",
    withGas({ high: { co2: { min: 8.7, max: 9.7, unit: "%" } } }),
    `${GAS}.high.co: No highest CO for high fire: it will not be judged by this sheet.`,
  ],
  [
    "no CO for low fire",
    withGas({ low: { co2: { belowHigh: { min: 0, max: 0.3 }, unit: "%" } } }),
    `${GAS}.low.co: No highest CO for low fire: it will not be judged by this sheet.`,
  ],
  [
    "one end of CO2",
    high({ co2: { min: 8.7, unit: "%" } }),
    `${GAS}.high.co2: Only one end: CO2 too high will not be noticed.`,
  ],
  [
    "the other end of CO2",
    high({ co2: { max: 9.7, unit: "%" } }),
    `${GAS}.high.co2: Only one end: CO2 too low will not be noticed.`,
  ],
  [
    "a slipped point",
    co2(0.87, 9.7),
    `${GAS}.high.co2.min: 0.87 % is unusual for CO2: is the decimal point where it should be?`,
  ],
  [
    "CO in thousands",
    high({ co: { max: 4001, unit: "[ppm]" } }),
    `${GAS}.high.co.max: 4001 ppm is unusual for CO: is the decimal point where it should be?`,
  ],
  [
    "low above high",
    low({ co2: { min: 8.7, max: 9.8, unit: "%" } }),
    `${GAS}.low.co2: Low fire may lie above high fire by this: with most valves it does not.`,
  ],
  [
    "low above high, relative",
    low({ co2: { belowHigh: { min: -0.1, max: 0.4 }, unit: "%" } }),
    `${GAS}.low.co2: Low fire may lie above high fire by this: with most valves it does not.`,
  ],
  [
    "pressures in two units",
    pressure({ static: { min: 17, max: 25, unit: "mbar" } }),
    `${GAS}.gas-pressure-inlet: The pressures are in mbar and in. w.c.: is each unit as on the paper?`,
  ],
  [
    "pressures changed",
    pressure({ static: { min: 2.5, max: 3.5, unit: "[in_i'H2O]" } }),
    `${GAS}.gas-pressure-inlet.dynamic: Dynamic pressure above static pressure: the two may have changed places.`,
  ],
  [
    "pressure in the wrong unit",
    pressure({
      static: { min: 0.02, max: 0.03, unit: "mbar" },
      dynamic: { min: 0.02, max: 0.03, unit: "mbar" },
      maxDrop: { value: 1, unit: "mbar" },
    }),
    `${GAS}.gas-pressure-inlet.static.min: 0.02 mbar is unusual for Inlet gas pressure: is the decimal point where it should be?`,
  ],
  [
    "no settling",
    sheet({ settleSeconds: { high: 60, low: 0 } }),
    "settleSeconds.low: With 0 seconds no reading ever has to settle: it is judged at once.",
  ],
  [
    "nothing to close",
    sheet({ closing: [] }),
    "closing: Nothing has to be closed: caps and plugs left open will not be asked about.",
  ],
  [
    "a step through the band",
    sheet({
      adjusters: {
        ...sheet().adjusters,
        high: { co2Rises: "clockwise", percentPerTurn: 1.1, largestStepTurns: 1 },
      },
    }),
    "adjusters.high.largestStepTurns: One such step of the high-fire screw moves CO2 by 1.1 %, right through the band.",
  ],
  [
    "no edition",
    sheet({ source: { ...sheet().source, edition: "" } }),
    "source.edition: Without edition and page nobody can look it up in the maker's paper.",
  ],
  [
    "a day to come",
    sheet({ source: { ...sheet().source, enteredOn: "2026-11-27" } }),
    "source.enteredOn: This day is yet to come.",
  ],
])("%s", (_, one, expected) => expect(doubts(one)).toContain(expected));

describe("not doubted", () => {
  test.each<[string, Sheet]>([
    ["entered today", sheet({ source: { ...sheet().source, enteredOn: "2026-11-26" } })],
    ["low fire up to the same as high", low({ co2: { min: 8.4, max: 9.7, unit: "%" } })],
    ["CO from nothing", high({ co: { min: 0, max: 150, unit: "[ppm]" } })],
    ["CO in the highest usual place", high({ co: { max: 4000, unit: "[ppm]" } })],
    ["one second to settle", sheet({ settleSeconds: { high: 1, low: 1 } })],
    [
      "a step just as wide as the band",
      sheet({
        adjusters: {
          ...sheet().adjusters,
          high: { co2Rises: "clockwise", percentPerTurn: 1, largestStepTurns: 0.5 },
        },
      }),
    ],
  ])("%s", (_, one) => expect(doubts(one)).toEqual([]));
});

test.each([
  [["Another"], false],
  [["test WALL-hung 35 kW "], true],
  [[], false],
])("titles of other sheets %j: told %j", (others, told) =>
  expect(doubts(sheet(), others).some((text) => text.startsWith("title: "))).toBe(told),
);
