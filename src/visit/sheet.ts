import { z } from "zod";
import { ClosingCheck, Fuel } from "../measure/firing.ts";
import { type QuantityId, quantityOf, refusal } from "../measure/quantity.ts";
import { shownUnit, Unit } from "../measure/unit.ts";

const bandOrder = "expected min not above max";
const ordered = (band: { min?: number | undefined; max?: number | undefined }) =>
  band.min === undefined || band.max === undefined || band.min <= band.max;

const AnyBand = z.strictObject({ min: z.number().optional(), max: z.number().optional(), unit: Unit });

/** The band of one quantity: in a unit that it can have, and inside its hard bounds, outside which nothing is measured. */
const bandOf = (id: QuantityId) => {
  const { name, units, min, max } = quantityOf(id);
  return (
    AnyBand.extend({ unit: z.enum(units) })
      .meta({ anyOf: [{ required: ["min"] }, { required: ["max"] }] })
      // Aborts, so that where a band is one of two shapes, the other one's problems are told.
      .refine((band) => band.min !== undefined || band.max !== undefined, {
        error: "expected min, max or both",
        abort: true,
      })
      .refine(ordered, bandOrder)
      .superRefine((band, context) => {
        for (const side of ["min", "max"] as const) {
          const value = band[side];
          if (value === undefined || refusal(id, value, band.unit) === null) continue;
          const message = `expected ${name} from ${min} to ${max} ${shownUnit(units[0])}`;
          context.addIssue({ code: "custom", path: [side], message });
        }
      })
  );
};

/** Low-fire CO2 relative to the accepted high-fire value: from `max` below it to `min` below it, in % CO2. */
export const BelowHigh = z.strictObject({
  belowHigh: z
    .strictObject({ min: z.number().min(-20).max(20), max: z.number().min(-20).max(20) })
    .refine(ordered, bandOrder),
  unit: z.literal("%"),
});
export type BelowHigh = z.infer<typeof BelowHigh>;

const pressure = bandOf("gas-pressure-inlet");

export const FuelLimits = z.strictObject({
  high: z.strictObject({
    co2: bandOf("co2").optional(),
    o2: bandOf("o2").optional(),
    co: bandOf("co").optional(),
  }),
  low: z.strictObject({
    co2: z.union([BelowHigh, bandOf("co2")]).optional(),
    o2: bandOf("o2").optional(),
    co: bandOf("co").optional(),
  }),
  "gas-pressure-inlet": z
    .strictObject({
      static: pressure.optional(),
      dynamic: pressure.optional(),
      /** Largest allowed fall from static to dynamic. */
      maxDrop: z
        .strictObject({ value: z.number().positive(), unit: z.enum(quantityOf("gas-pressure-inlet").units) })
        .optional(),
    })
    .optional(),
});
export type FuelLimits = z.infer<typeof FuelLimits>;

export const Adjuster = z.strictObject({
  co2Rises: z.enum(["clockwise", "counterclockwise"]),
  /** CO2 change in vol-% for one full turn, or null where the maker gives none. */
  percentPerTurn: z.number().positive().max(20).nullable(),
  largestStepTurns: z.number().positive().max(5),
  underCap: z.boolean().optional(),
});
export type Adjuster = z.infer<typeof Adjuster>;

/** The maker's limits for one appliance, typed in from the maker's instructions, with their source. */
export const Sheet = z.strictObject({
  format: z.literal("burnerside-sheet/1"),
  /** Stands in addresses, as a visit's does. */
  id: z
    .string()
    .min(1)
    .max(80)
    .refine((id) => id.isWellFormed(), "expected text of whole characters"),
  title: z.string().min(1).max(120),
  source: z.strictObject({
    document: z.string().min(1),
    edition: z.string(),
    page: z.string(),
    enteredBy: z.string().min(1),
    enteredOn: z.iso.date(),
  }),
  fuels: z
    .partialRecord(Fuel, FuelLimits)
    .meta({ minProperties: 1 })
    .refine((fuels) => Object.keys(fuels).length > 0, "expected at least one fuel"),
  adjusters: z.strictObject({ high: Adjuster, low: Adjuster }),
  settleSeconds: z.strictObject({ high: z.number().min(0).max(3600), low: z.number().min(0).max(3600) }),
  closing: z.array(ClosingCheck),
});
export type Sheet = z.infer<typeof Sheet>;
