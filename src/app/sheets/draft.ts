import { z } from "zod";
import { CLOSING_CHECKS, ClosingCheck, Fuel, type UnitSystem } from "../../measure/firing.ts";
import { Unit } from "../../measure/unit.ts";
import type { Adjuster, FuelLimits, Sheet } from "../../visit/sheet.ts";
import { textOf } from "./numbers.ts";

const BandDraft = z.strictObject({ min: z.string(), max: z.string(), unit: Unit });
export type BandDraft = z.infer<typeof BandDraft>;

/** Low-fire CO2: from one value to another, or so far below the accepted high-fire value. */
const LowCo2Draft = z.strictObject({ ...BandDraft.shape, way: z.enum(["band", "below-high"]) });
export type LowCo2Draft = z.infer<typeof LowCo2Draft>;

const FuelDraft = z.strictObject({
  high: z.strictObject({ co2: BandDraft, o2: BandDraft, co: BandDraft }),
  low: z.strictObject({ co2: LowCo2Draft, o2: BandDraft, co: BandDraft }),
  "gas-pressure-inlet": z.strictObject({
    static: BandDraft,
    dynamic: BandDraft,
    maxDrop: z.strictObject({ value: z.string(), unit: Unit }),
  }),
});
export type FuelDraft = z.infer<typeof FuelDraft>;

const AdjusterDraft = z.strictObject({
  /** Empty while nothing was chosen. */
  co2Rises: z.enum(["", "clockwise", "counterclockwise"]),
  percentPerTurn: z.string(),
  /** The maker gives no figure. */
  percentUnknown: z.boolean(),
  largestStepTurns: z.string(),
  underCap: z.boolean(),
});
export type AdjusterDraft = z.infer<typeof AdjusterDraft>;

/** A limits sheet as its form holds it: built like the sheet, every number the text that was typed. */
export const SheetDraft = z.strictObject({
  id: z.string().min(1),
  title: z.string(),
  source: z.strictObject({
    document: z.string(),
    edition: z.string(),
    page: z.string(),
    enteredBy: z.string(),
    enteredOn: z.string(),
  }),
  fuels: z.partialRecord(Fuel, FuelDraft),
  adjusters: z.strictObject({ high: AdjusterDraft, low: AdjusterDraft }),
  settleSeconds: z.strictObject({ high: z.string(), low: z.string() }),
  closing: z.array(ClosingCheck),
});
export type SheetDraft = z.infer<typeof SheetDraft>;

const band = (unit: Unit): BandDraft => ({ min: "", max: "", unit });

/** No limit of a gas; `pressure` is the unit that its pressures are likely to be given in. */
export function emptyFuel(pressure: Unit): FuelDraft {
  const flue = () => ({ co2: band("%"), o2: band("%"), co: band("[ppm]") });
  return {
    high: flue(),
    low: { ...flue(), co2: { ...band("%"), way: "band" } },
    "gas-pressure-inlet": {
      static: band(pressure),
      dynamic: band(pressure),
      maxDrop: { value: "", unit: pressure },
    },
  };
}

const EMPTY_ADJUSTER: AdjusterDraft = {
  co2Rises: "",
  percentPerTurn: "",
  percentUnknown: false,
  largestStepTurns: "",
  underCap: false,
};

/** The unit that gas pressures are most often given in. */
export function usualPressure(units: UnitSystem): Unit {
  return units === "us" ? "[in_i'H2O]" : "mbar";
}

/** A new sheet: no limit and no direction is filled in that the maker has not given. `today` as YYYY-MM-DD. */
export function emptyDraft(id: string, today: string, units: UnitSystem): SheetDraft {
  return {
    id,
    title: "",
    source: { document: "", edition: "", page: "", enteredBy: "", enteredOn: today },
    fuels: { "natural-gas": emptyFuel(usualPressure(units)) },
    adjusters: { high: EMPTY_ADJUSTER, low: EMPTY_ADJUSTER },
    settleSeconds: { high: "", low: "" },
    closing: [...CLOSING_CHECKS],
  };
}

/** A sheet as its form shows it. */
export function draftOf(sheet: Sheet): SheetDraft {
  return {
    id: sheet.id,
    title: sheet.title,
    source: { ...sheet.source },
    fuels: Object.fromEntries(
      Fuel.options.flatMap((fuel) => {
        const limits = sheet.fuels[fuel];
        return limits ? [[fuel, fuelDraft(limits)]] : [];
      }),
    ),
    adjusters: { high: adjusterDraft(sheet.adjusters.high), low: adjusterDraft(sheet.adjusters.low) },
    settleSeconds: { high: textOf(sheet.settleSeconds.high), low: textOf(sheet.settleSeconds.low) },
    // A file may name one twice; in the form each has its one place.
    closing: [...new Set(sheet.closing)],
  };
}

/**
 * A copy to go on from. Who enters it, and when, is asked anew; so is the whole source where the sheet was invented for
 * the demo, for no maker stands behind those numbers.
 */
export function copyOf(sheet: Sheet, id: string, today: string, isDemo: boolean): SheetDraft {
  const { document, edition, page } = isDemo ? { document: "", edition: "", page: "" } : sheet.source;
  return {
    ...draftOf(sheet),
    id,
    title: `Copy of ${sheet.title}`.slice(0, 120),
    source: { document, edition, page, enteredBy: "", enteredOn: today },
  };
}

function fuelDraft(limits: FuelLimits): FuelDraft {
  const { high, low, "gas-pressure-inlet": pressure } = limits;
  const empty = emptyFuel(pressure?.static?.unit ?? pressure?.dynamic?.unit ?? "mbar");
  return {
    high: {
      co2: bandDraft(high.co2, empty.high.co2),
      o2: bandDraft(high.o2, empty.high.o2),
      co: bandDraft(high.co, empty.high.co),
    },
    low: {
      co2: lowCo2Draft(low.co2),
      o2: bandDraft(low.o2, empty.low.o2),
      co: bandDraft(low.co, empty.low.co),
    },
    "gas-pressure-inlet": {
      static: bandDraft(pressure?.static, empty["gas-pressure-inlet"].static),
      dynamic: bandDraft(pressure?.dynamic, empty["gas-pressure-inlet"].dynamic),
      maxDrop: pressure?.maxDrop
        ? { value: textOf(pressure.maxDrop.value), unit: pressure.maxDrop.unit }
        : empty["gas-pressure-inlet"].maxDrop,
    },
  };
}

interface AnyBand {
  readonly min?: number | undefined;
  readonly max?: number | undefined;
  readonly unit: Unit;
}

function bandDraft(limits: AnyBand | undefined, empty: BandDraft): BandDraft {
  return limits ? { min: textOf(limits.min), max: textOf(limits.max), unit: limits.unit } : empty;
}

function lowCo2Draft(limits: FuelLimits["low"]["co2"]): LowCo2Draft {
  if (!limits) return { ...band("%"), way: "band" };
  if (!("belowHigh" in limits)) return { ...bandDraft(limits, band("%")), way: "band" };
  const { belowHigh, unit } = limits;
  return { min: textOf(belowHigh.min), max: textOf(belowHigh.max), unit, way: "below-high" };
}

function adjusterDraft({ co2Rises, percentPerTurn, largestStepTurns, underCap }: Adjuster): AdjusterDraft {
  return {
    co2Rises,
    percentPerTurn: textOf(percentPerTurn),
    percentUnknown: percentPerTurn === null,
    largestStepTurns: textOf(largestStepTurns),
    underCap: underCap === true,
  };
}
