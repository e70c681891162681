import { QUANTITIES, type QuantityId, quantityOf, readsWhole, refusal } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import type { Unit } from "../measure/unit.ts";
import type { ReadingItem } from "./item.ts";

/**
 * Why a value is not believed: a unit its quantity cannot have, a size it cannot be, a fraction that no instrument shows, or
 * hundreds said as two figures.
 */
export type Doubt = "unit" | "bounds" | "fraction" | "hundreds";

/** Below this, in turns a minute, no fan blows: "fan fifty four" is 5400. */
const SLOWEST_FAN = 100;

export function doubt(id: QuantityId, value: number, unit: Unit | null): Doubt | null {
  const refused = refusal(id, value, unit);
  if (refused !== null) return refused;
  if (readsWhole(id) && !Number.isInteger(value)) return "fraction";
  return id === "fan-speed" && value > 0 && value < SLOWEST_FAN ? "hundreds" : null;
}

/** The doubt in a short sentence. */
export function doubtText(why: Doubt, { quantity, value, unit }: ReadingItem): string {
  const { name } = quantityOf(quantity);
  const shown = shownValue(value, unit);
  switch (why) {
    case "unit":
      return `${name} is not measured in the unit of ${shown}`;
    case "bounds":
      return `${name} cannot be ${shown}`;
    case "fraction":
      return `${name} is read in whole numbers, not ${shown}`;
    case "hundreds":
      return `${name} is hardly ${shown}`;
  }
}

/** What may have been meant: a lost decimal point, or another quantity that such a value fits. At most two, likeliest first. */
export function nearest(why: Doubt, item: ReadingItem): ReadingItem[] {
  const { quantity, value, unit } = item;
  const fits = (other: ReadingItem) => doubt(other.quantity, other.value, other.unit) === null;
  switch (why) {
    case "bounds":
      return [10, 100]
        .map((by) => ({ ...item, value: Number((value / by).toPrecision(6)) }))
        .filter(fits)
        .slice(0, 1);
    case "unit":
      return others(item, ({ units }) => unit !== null && units.includes(unit)).filter(fits);
    case "fraction":
      // CO and CO2 are one word apart.
      return quantity === "co"
        ? [{ ...item, quantity: "co2" as const, unit: "%" as const }].filter(fits)
        : [];
    case "hundreds":
      return [{ ...item, value: value * 100 }];
  }
}

function others(item: ReadingItem, has: (quantity: (typeof QUANTITIES)[number]) => boolean): ReadingItem[] {
  return QUANTITIES.filter(has)
    .map(({ id, perFiring }) => ({ ...item, quantity: id, firing: perFiring ? item.firing : null }))
    .slice(0, 2);
}
