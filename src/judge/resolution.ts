import { type QuantityId, quantityOf } from "../measure/quantity.ts";
import { convert, type Unit } from "../measure/unit.ts";
import type { Limit } from "./judgement.ts";

/** Takes the dust of binary arithmetic off a number (10.3 - 0.3 is 10.000000000000002). */
export function dusted(value: number): number {
  return Number(value.toFixed(6));
}

/** Decimals that instruments show for a quantity in one of its units: a unit ten times larger needs one more. */
function instrumentDecimals(id: QuantityId, unit: Unit): number {
  const { units, decimals } = quantityOf(id);
  const size = convert(1, unit, units[0]) - convert(0, unit, units[0]);
  return decimals + Math.max(0, Math.ceil(Math.log10(size) - 1e-9));
}

function decimalsSaid(value: number): number {
  return String(dusted(value)).split(".")[1]?.length ?? 0;
}

/** The resolution at which a value was said, as decimals: at least what instruments show, since "ten" means 10.0. */
export function resolution(id: QuantityId, value: number, unit: Unit): number {
  return Math.max(decimalsSaid(value), instrumentDecimals(id, unit));
}

/**
 * A sheet's limit in the unit in which a value was said. A limit that had to be converted is rounded to the value's
 * resolution: 4.5 inches of water is 11.209 mbar, and a gauge that shows 11.2 stands on it.
 */
export function limitAsSaid(
  limit: { readonly min?: number | undefined; readonly max?: number | undefined; readonly unit: Unit },
  id: QuantityId,
  value: number,
  unit: Unit,
): Limit {
  const side = (edge: number | undefined) => {
    if (edge === undefined) return null;
    if (limit.unit === unit) return dusted(edge);
    return Number(convert(edge, limit.unit, unit).toFixed(resolution(id, value, unit)));
  };
  return { min: side(limit.min), max: side(limit.max) };
}

/** -1 below, 0 inside (limits included), 1 above. */
export function place(value: number, limit: Limit): -1 | 0 | 1 {
  const exact = dusted(value);
  if (limit.min !== null && exact < limit.min) return -1;
  return limit.max !== null && exact > limit.max ? 1 : 0;
}
