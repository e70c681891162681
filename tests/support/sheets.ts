import type { FuelLimits, Sheet } from "../../src/visit/sheet.ts";

/** An invented sheet for tests; the limits follow "common practice, no source" (natural gas and propane below). */
export function sheet(changes: Partial<Sheet> = {}): Sheet {
  return {
    format: "burnerside-sheet/1",
    id: "test-35",
    title: "Test wall-hung 35 kW",
    source: {
      document: "invented for tests",
      edition: "1",
      page: "1",
      enteredBy: "tt",
      enteredOn: "2026-11-25",
    },
    fuels: { "natural-gas": NATURAL_GAS, propane: PROPANE },
    adjusters: {
      high: { co2Rises: "clockwise", percentPerTurn: 0.33, largestStepTurns: 1 },
      low: { co2Rises: "clockwise", percentPerTurn: null, largestStepTurns: 0.1, underCap: true },
    },
    settleSeconds: { high: 60, low: 60 },
    closing: ["low-fire-cap", "test-mode-off", "test-port"],
    ...changes,
  };
}

/** Common practice, no source: natural gas CO2 8.7 to 9.7 %, CO at most 175 ppm, low fire from high down to 0.3 below. */
export const NATURAL_GAS: FuelLimits = {
  high: { co2: { min: 8.7, max: 9.7, unit: "%" }, co: { max: 175, unit: "[ppm]" } },
  low: { co2: { belowHigh: { min: 0, max: 0.3 }, unit: "%" }, co: { max: 175, unit: "[ppm]" } },
};

/** Common practice, no source: propane CO2 9.5 to 10.5 %, CO at most 175 ppm. */
export const PROPANE: FuelLimits = {
  high: { co2: { min: 9.5, max: 10.5, unit: "%" }, co: { max: 175, unit: "[ppm]" } },
  low: { co2: { belowHigh: { min: 0, max: 0.3 }, unit: "%" }, co: { max: 175, unit: "[ppm]" } },
};

/** Natural gas with gas-pressure limits in inches of water and a largest drop. */
export const WITH_PRESSURE: FuelLimits = {
  ...NATURAL_GAS,
  "gas-pressure-inlet": {
    static: { min: 4.5, max: 14, unit: "[in_i'H2O]" },
    dynamic: { min: 4, max: 14, unit: "[in_i'H2O]" },
    maxDrop: { value: 1, unit: "[in_i'H2O]" },
  },
};

/** The test sheet with those gas-pressure limits, for natural gas alone. */
export const PRESSURE_SHEET: Sheet = sheet({ fuels: { "natural-gas": WITH_PRESSURE } });
