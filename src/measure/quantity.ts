import { z } from "zod";
import { convert, type Unit } from "./unit.ts";

export const QUANTITY_IDS = [
  "co2",
  "o2",
  "co",
  "co-ambient",
  "flue-temperature",
  "air-temperature",
  "supply-temperature",
  "return-temperature",
  "gas-pressure-inlet",
  "gas-pressure-manifold",
  "draft",
  "fan-speed",
  "flame-current",
  "gas-meter-time",
  "water-flow",
  "altitude",
] as const;

export const QuantityId = z.enum(QUANTITY_IDS);
export type QuantityId = z.infer<typeof QuantityId>;

/** One thing that can be measured. The first unit is the one that bounds are in and that nobody has to say. */
export interface Quantity {
  readonly id: QuantityId;
  /** As shown: "CO2". */
  readonly name: string;
  /** As said by the voice: "C O 2". */
  readonly spoken: string;
  readonly units: readonly [Unit, ...Unit[]];
  /** Hard bounds, inclusive, in the first unit: outside them a value is misheard, not measured. */
  readonly min: number;
  readonly max: number;
  /** Whether a value belongs to a firing mode of the burner. */
  readonly perFiring: boolean;
  /** Where a healthy or a sick boiler's values lie, in the first unit: a rival reading outside is less likely, not refused. */
  readonly usual: readonly [min: number, max: number];
  /** Decimals that instruments show, in the first unit; used to mend a lost decimal point. */
  readonly decimals: number;
}

const PRESSURE = ["mbar", "[in_i'H2O]", "kPa", "Pa", "[psi]"] as const;

/** The only place that knows the quantities: a new one is a row here, a grammar line, a limit row and a test line. */
export const QUANTITIES: readonly Quantity[] = [
  q("co2", "CO2", "C O 2", ["%"], 0, 20, true, 1, [4, 14]),
  q("o2", "O2", "oxygen", ["%"], 0, 20.95, true, 1, [0.5, 15]),
  q("co", "CO", "C O", ["[ppm]"], 0, 20000, true, 0, [0, 4000]),
  q("co-ambient", "Room CO", "room C O", ["[ppm]"], 0, 5000, false, 0, [0, 500]),
  q(
    "flue-temperature",
    "Flue temperature",
    "flue temperature",
    ["Cel", "[degF]"],
    -40,
    600,
    true,
    0,
    [20, 250],
  ),
  q("air-temperature", "Air temperature", "air temperature", ["Cel", "[degF]"], -40, 150, true, 0, [-20, 45]),
  q(
    "supply-temperature",
    "Supply temperature",
    "supply temperature",
    ["Cel", "[degF]"],
    -40,
    150,
    true,
    0,
    [15, 95],
  ),
  q(
    "return-temperature",
    "Return temperature",
    "return temperature",
    ["Cel", "[degF]"],
    -40,
    150,
    true,
    0,
    [10, 90],
  ),
  q("gas-pressure-inlet", "Inlet gas pressure", "inlet gas pressure", PRESSURE, 0, 100, true, 1, [5, 60]),
  q("gas-pressure-manifold", "Manifold pressure", "manifold pressure", PRESSURE, -10, 60, true, 1, [-2, 30]),
  q("draft", "Draft", "draft", ["Pa", "[in_i'H2O]", "mbar"], -250, 250, true, 0, [-60, 60]),
  q("fan-speed", "Fan speed", "fan speed", ["/min"], 0, 20000, true, 0, [500, 12000]),
  q("flame-current", "Flame current", "flame current", ["uA"], 0, 100, true, 1, [0.2, 30]),
  q("gas-meter-time", "Meter time", "meter time", ["s"], 1, 3600, true, 1, [5, 1200]),
  q("water-flow", "Water flow", "water flow", ["L/min", "[gal_us]/min"], 0, 1000, false, 1, [1, 200]),
  q("altitude", "Altitude", "altitude", ["m", "[ft_i]"], -500, 6000, false, 0, [-100, 4000]),
];

const BY_ID = new Map(QUANTITIES.map((quantity) => [quantity.id, quantity]));

export function quantityOf(id: QuantityId): Quantity {
  const found = BY_ID.get(id);
  if (!found) throw new RangeError(`no quantity ${id}`);
  return found;
}

/** Why a value cannot be logged, or null where it can. */
export type Refusal = "unit" | "bounds";

/**
 * Whether a value may be logged for a quantity. A value said without a unit is allowed where it is inside the
 * bounds in at least one unit that the quantity can have.
 */
export function refusal(id: QuantityId, value: number, unit: Unit | null): Refusal | null {
  const quantity = quantityOf(id);
  if (unit !== null && !quantity.units.includes(unit)) return "unit";
  const inside = (candidate: Unit) => {
    const base = convert(value, candidate, quantity.units[0]);
    return base >= quantity.min && base <= quantity.max;
  };
  return (unit === null ? quantity.units.some(inside) : inside(unit)) ? null : "bounds";
}

/** Whether a value lies where such values usually do, in at least one unit that it may have. */
export function isUsual(id: QuantityId, value: number, unit: Unit | null): boolean {
  const { units, usual } = quantityOf(id);
  const inside = (candidate: Unit) => {
    const base = convert(value, candidate, units[0]);
    return base >= usual[0] && base <= usual[1];
  };
  return unit === null ? units.some(inside) : units.includes(unit) && inside(unit);
}

/** The unit that goes without saying: the only one a quantity has, else null. */
export function onlyUnit(id: QuantityId): Unit | null {
  const { units } = quantityOf(id);
  return units.length === 1 ? units[0] : null;
}

/** Whether instruments show it in whole numbers only: its one unit has no decimals, so "CO nine point two" is misheard. */
export function readsWhole(id: QuantityId): boolean {
  return onlyUnit(id) !== null && quantityOf(id).decimals === 0;
}

function q(
  id: QuantityId,
  name: string,
  spoken: string,
  units: readonly [Unit, ...Unit[]],
  min: number,
  max: number,
  perFiring: boolean,
  decimals: number,
  usual: readonly [number, number],
): Quantity {
  return { id, name, spoken, units, min, max, perFiring, decimals, usual };
}
