import type { Firing, Fuel } from "../../../src/measure/firing.ts";
import type { Sheet } from "../../../src/visit/sheet.ts";

/** What is wrong with a boiler, null for a sound one. */
export type Fault =
  | { readonly kind: "dead" | "reversed" | "wrong-screw" | "loose"; readonly screw: Firing }
  /** CO2 can rise (1) or fall (-1) by no more than this, vol-%. */
  | { readonly kind: "at-its-end"; readonly screw: Firing; readonly way: 1 | -1; readonly room: number }
  | { readonly kind: "sooted" }
  | { readonly kind: "supply"; readonly condition: "static" | "dynamic" };

type Both<T> = Readonly<Record<Firing, T>>;

/** A gas valve on a premix burner, as it really is. CO2 in vol-%, turns in the direction in which CO2 rises. */
export interface ValveSpec {
  readonly sheet: Sheet;
  readonly fuel: Fuel;
  readonly fault: Fault | null;
  /** CO2 as found, settled. */
  readonly found: Both<number>;
  /** % CO2 per turn as found. */
  readonly gain: Both<number>;
  /** How fast the gain falls off, per % CO2 gained. */
  readonly bend: number;
  /** Turns lost on a reversal, and how much of it lies ahead of a rising turn at the start, 0 to 1. */
  readonly play: Both<number>;
  readonly slack: Both<number>;
  /** Share of the low-fire screw's effect that reaches high fire, and of the high-fire screw's that reaches low fire. */
  readonly lowIntoHigh: number;
  readonly highIntoLow: number;
  /** Time constant of the flue gas after a touch or a change of firing, s. */
  readonly lag: number;
  /** CO: floor in ppm, the CO2 at which it is 20 ppm more, and the rise in CO2 that makes that 2.7 times as much. */
  readonly co: { readonly floor: number; readonly knee: number; readonly width: number };
  /** Standard deviation of the analyser's CO2, vol-%. */
  readonly noise: number;
  /** Inlet gas pressure, inches of water. */
  readonly supply: Readonly<Record<"static" | "dynamic", number>>;
}

/** Where the screws stand: the driver, and what is left after play, in turns towards rising CO2. */
export interface Screws {
  readonly driver: Both<number>;
  readonly acting: Both<number>;
}

export function screwsAsFound(spec: ValveSpec): Screws {
  const acting = (screw: Firing) => (spec.slack[screw] - 0.5) * spec.play[screw];
  return { driver: { high: 0, low: 0 }, acting: { high: acting("high"), low: acting("low") } };
}

/** After a turn; a boiler whose wrong screw is taken moves the other one. */
export function turnScrew(spec: ValveSpec, screws: Screws, said: Firing, turns: number): Screws {
  const { fault } = spec;
  const isSwapped = fault?.kind === "wrong-screw" && fault.screw === said;
  const screw: Firing = isSwapped ? (said === "high" ? "low" : "high") : said;
  const driver = screws.driver[screw] + turns;
  const half = spec.play[screw] / 2;
  const acting = Math.min(driver + half, Math.max(driver - half, screws.acting[screw]));
  return {
    driver: { ...screws.driver, [screw]: driver },
    acting: { ...screws.acting, [screw]: acting },
  };
}

/** Settled CO2 of both firings. */
export function settledCo2(spec: ValveSpec, { acting }: Screws): Both<number> {
  const start = screwsAsFound(spec).acting;
  const high = effect(spec, "high", acting.high - start.high);
  const low = effect(spec, "low", acting.low - start.low);
  const burning = (co2: number) => Math.min(RICHEST[spec.fuel], Math.max(LEANEST, co2));
  return {
    high: burning(spec.found.high + high + spec.lowIntoHigh * low),
    low: burning(spec.found.low + spec.highIntoLow * high + low),
  };
}

/** There is no more CO2 than this in the flue gas, vol-% (check-values section 1.1); beyond it CO runs away. */
const RICHEST: Readonly<Record<Fuel, number>> = { "natural-gas": 11.8, propane: 13.7 };

/** Leaner than this no flame stands, vol-%: from memory, roughly; it only keeps the numbers possible. */
const LEANEST = 4;

/** What a screw does, vol-%: less and less towards the rich end. */
function effect({ gain, bend, fault }: ValveSpec, screw: Firing, turns: number): number {
  const linear = gain[screw] * turns;
  const bent = bend === 0 ? linear : (1 - Math.exp(-bend * linear)) / bend;
  if (!fault || !("screw" in fault) || fault.screw !== screw) return bent;
  switch (fault.kind) {
    case "dead":
      return 0;
    case "reversed":
      return -linear;
    case "at-its-end": {
      const gone = linear * fault.way;
      return gone <= 0 ? linear : fault.way * fault.room * (1 - Math.exp(-gone / fault.room));
    }
    case "wrong-screw":
    case "loose":
      return bent;
  }
}

/** CO at a CO2, ppm. */
export function trueCo({ co }: ValveSpec, co2: number): number {
  return Math.min(9000, co.floor + 20 * Math.exp((co2 - co.knee) / co.width));
}

/** Whether true CO at a CO2 is over the sheet's limit for this firing, by more than a share of it. */
export function isCoOver(spec: ValveSpec, firing: Firing, co2: number, share = 0): boolean {
  return (
    trueCo(spec, co2) >
    (1 + share) * (spec.sheet.fuels[spec.fuel]?.[firing].co?.max ?? Number.POSITIVE_INFINITY)
  );
}

/** CO is read to a few percent. */
const CO_TOLERANCE = 0.1;

const DUST = 1e-9;

/** Whether CO2 and CO of both firings are in the sheet's limits, as an analyser without noise would read them. `tolerance` in vol-%. */
export function inRange(spec: ValveSpec, co2: Both<number>, tolerance = 0): boolean {
  const share = tolerance > 0 ? CO_TOLERANCE : 0;
  if (isCoOver(spec, "high", co2.high, share) || isCoOver(spec, "low", co2.low, share)) return false;
  const [high, low] = [tenth(co2.high), tenth(co2.low)];
  return [
    { value: high, band: bandOf(spec, "high", high) },
    { value: low, band: bandOf(spec, "low", high) },
  ].every(({ value, band }) => value >= band.min - tolerance - DUST && value <= band.max + tolerance + DUST);
}

/** The CO2 band of a firing; low fire may hang on the high-fire value. */
export function bandOf(
  { sheet, fuel }: ValveSpec,
  firing: Firing,
  high: number,
): { min: number; max: number } {
  const band = sheet.fuels[fuel]?.[firing].co2;
  if (!band) throw new Error("expected a sheet with CO2 limits");
  if ("belowHigh" in band) return { min: high - band.belowHigh.max, max: high - band.belowHigh.min };
  return { min: band.min ?? 0, max: band.max ?? 20 };
}

export const tenth = (value: number) => Math.round(value * 10) / 10;
