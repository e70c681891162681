import { z } from "zod";

/** The burner's forced firing rate. */
export const Firing = z.enum(["high", "low"]);
export type Firing = z.infer<typeof Firing>;

/** Whether the gas pressure was taken with the burner off or running. */
export const Condition = z.enum(["static", "dynamic"]);
export type Condition = z.infer<typeof Condition>;

/** The test dial of a gas meter: volume of one revolution. */
export const Dial = z.strictObject({ value: z.number().positive(), unit: z.enum(["[ft_i]3", "m3"]) });
export type Dial = z.infer<typeof Dial>;

/** Fuels the judge knows. */
export const Fuel = z.enum(["natural-gas", "propane"]);
export type Fuel = z.infer<typeof Fuel>;

/** A visit's own system of units, assumed where none is said. */
export const UnitSystem = z.enum(["us", "si"]);
export type UnitSystem = z.infer<typeof UnitSystem>;

/** What has to be confirmed before the test. */
export const BEFORE_CHECKS = ["isolation", "pressure-tap", "gas-on", "analyser-zeroed"] as const;
export const BeforeCheck = z.enum(BEFORE_CHECKS);
export type BeforeCheck = z.infer<typeof BeforeCheck>;

/** What has to be confirmed before leaving. */
export const CLOSING_CHECKS = [
  "low-fire-cap",
  "test-mode-off",
  "manometer-removed",
  "pressure-test-screw",
  "test-port",
  "panel",
  "leak-check",
] as const;
export const ClosingCheck = z.enum(CLOSING_CHECKS);
export type ClosingCheck = z.infer<typeof ClosingCheck>;

/** What can be confirmed, in the order of work. */
export const CHECKS = [...BEFORE_CHECKS, ...CLOSING_CHECKS] as const;
export const Check = z.enum(CHECKS);
export type Check = z.infer<typeof Check>;
