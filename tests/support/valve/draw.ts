import type { Firing, Fuel } from "../../../src/measure/firing.ts";
import type { FuelLimits, Sheet } from "../../../src/visit/sheet.ts";
import { NATURAL_GAS, PROPANE, sheet } from "../sheets.ts";
import { type Chance, chance } from "./chance.ts";
import { type Fault, tenth, type ValveSpec } from "./valve.ts";

/** Every kind of fault that has to be stopped. */
export const FAULTS = [
  "dead high",
  "dead low",
  "reversed high",
  "reversed low",
  "wrong-screw high",
  "wrong-screw low",
  "at-its-end high",
  "at-its-end low",
  "loose high",
  "loose low",
  "sooted",
  "supply static",
  "supply dynamic",
] as const;
export type FaultName = (typeof FAULTS)[number];

/** Middle of the usual high-fire band, vol-%: common practice, no source. */
const MIDDLE: Readonly<Record<Fuel, number>> = { "natural-gas": 9.2, propane: 10 };
const LIMITS: Readonly<Record<Fuel, FuelLimits>> = { "natural-gas": NATURAL_GAS, propane: PROPANE };

/** A boiler drawn by chance: sound, or with this fault. The same seed draws the same boiler. */
export function drawValve(seed: number, fault: FaultName | null = null): ValveSpec {
  const c = chance(seed);
  const fuel: Fuel = c.is(0.6) ? "natural-gas" : "propane";
  const middle = MIDDLE[fuel];
  const half = (c.is(0.25) ? c.from(0.4, 0.6) : 1) / 2;
  const chosen = drawSheet(c, fuel, middle, half);
  const { high, low } = chosen.adjusters;
  const gain = {
    high: high.percentPerTurn === null ? c.from(0.2, 0.8) : high.percentPerTurn * spread(c),
    low: low.percentPerTurn === null ? Math.exp(c.from(0, Math.log(4))) : low.percentPerTurn * spread(c),
  };
  const co = drawCo(c, middle + half);
  const found = drawFound(c, middle, half);
  const spec: ValveSpec = {
    sheet: chosen,
    fuel,
    fault: null,
    found: { high: Math.min(found.high, co.atMost), low: Math.min(found.low, co.atMost) },
    gain,
    bend: c.is(0.3) ? 0 : c.from(0, 0.35),
    play: { high: c.from(0, 0.1), low: c.from(0, 0.03) },
    slack: { high: c.from(0, 1), low: c.from(0, 1) },
    lowIntoHigh: c.from(0.02, 0.15),
    highIntoLow: c.from(0.7, 1.05),
    lag: c.from(5, 20),
    co: co.curve,
    noise: c.from(0.02, 0.05),
    supply: { static: c.from(6, 9), dynamic: c.from(5.5, 6) },
  };
  return fault ? spoilt(c, spec, fault, middle) : spec;
}

/** The true gain over the sheet's figure. */
const spread = (c: Chance) => Math.min(2, Math.max(0.5, Math.exp(0.3 * c.normal())));

/** CO2 as found, from in range to far out on either side; low fire by what it is off the middle of its band. */
function drawFound(c: Chance, middle: number, half: number): Record<Firing, number> {
  const off = c.is(0.25) ? c.from(-half, half) : (c.is(0.6) ? -1 : 1) * c.from(half, 1.6);
  const lowOff = c.is(0.25) ? c.from(-0.1, 0.1) : c.from(-0.6, 0.6);
  return { high: middle + off, low: middle + off - 0.15 + lowOff };
}

/** CO as found is at most this, ppm: with more the burner is shut down, not set. */
const FOUND_CO = 1000;

/**
 * CO of a burner, and the CO2 that it is found with at most. Most burners reach their CO limit well beyond the band, some near
 * its rich edge.
 */
function drawCo(c: Chance, richest: number): { curve: ValveSpec["co"]; atMost: number } {
  const width = c.from(0.2, 0.4);
  const curve = c.is(0.8)
    ? { floor: c.from(5, 50), knee: richest + c.from(0.1, 0.8), width }
    : { floor: c.from(60, 120), knee: richest - c.from(0, 0.3), width };
  return { curve, atMost: curve.knee + width * Math.log((FOUND_CO - curve.floor) / 20) };
}

function drawSheet(c: Chance, fuel: Fuel, middle: number, half: number): Sheet {
  const base = LIMITS[fuel];
  const { unit } = { unit: "%" as const };
  const limits: FuelLimits = {
    high: { ...base.high, co2: { min: tenth(middle - half), max: tenth(middle + half), unit } },
    low: {
      ...base.low,
      co2: c.is(0.2)
        ? { min: tenth(middle - 0.3), max: tenth(middle + 0.1), unit }
        : { belowHigh: { min: 0, max: c.oneOf([0.3, 0.3, 0.4]) }, unit },
    },
    "gas-pressure-inlet": {
      static: { min: 4.5, max: 14, unit: "[in_i'H2O]" },
      dynamic: { min: 4, max: 14, unit: "[in_i'H2O]" },
    },
  };
  const rises = () => (c.is(0.8) ? ("clockwise" as const) : ("counterclockwise" as const));
  return sheet({
    fuels: { [fuel]: limits },
    adjusters: {
      high: {
        co2Rises: rises(),
        percentPerTurn: c.oneOf([0.33, 0.33, 0.5, null]),
        largestStepTurns: c.oneOf([1, 0.5]),
      },
      low: {
        co2Rises: rises(),
        percentPerTurn: c.oneOf([2, 3, null, null]),
        largestStepTurns: c.oneOf([0.1, 0.125]),
        underCap: true,
      },
    },
    settleSeconds: { high: 60, low: c.oneOf([60, 60, 90]) },
  });
}

/** The same boiler with a fault, and far enough out for the fault to matter: mostly lean, as a new boiler is, or rich. */
function spoilt(c: Chance, spec: ValveSpec, name: FaultName, middle: number): ValveSpec {
  const [kind, where] = name.split(" ");
  const screw: Firing = where === "low" ? "low" : "high";
  const way = c.is(0.7) ? 1 : -1;
  const found =
    screw === "high"
      ? { high: middle - way * c.from(1, 1.6), low: middle - way }
      : { high: middle, low: middle - way * c.from(0.8, 1.1) };
  const faulty = (fault: Fault): ValveSpec => ({ ...spec, found, fault });
  switch (kind) {
    case "dead":
    case "reversed":
    case "wrong-screw":
      return faulty({ kind, screw });
    case "at-its-end":
      return faulty({ kind, screw, way, room: c.from(0.1, 0.25) });
    case "loose": {
      // So much that the largest steps one after the other do nothing.
      const play = { ...spec.play, [screw]: c.from(9, 12) * spec.sheet.adjusters[screw].largestStepTurns };
      return { ...faulty({ kind, screw }), play, slack: { high: 0.5, low: 0.5 } };
    }
    case "sooted":
      return { ...faulty({ kind }), found: spec.found, co: { ...spec.co, floor: c.from(300, 700) } };
    case "supply": {
      const condition = where === "static" ? "static" : "dynamic";
      const pressure = condition === "static" && c.is(0.3) ? c.from(14.6, 17) : c.from(2, 3.8);
      return {
        ...faulty({ kind: "supply", condition }),
        supply: { ...spec.supply, [condition]: pressure },
      };
    }
    default:
      throw new Error(`expected a known fault, got "${name}"`);
  }
}
