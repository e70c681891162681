import type { ReadingItem } from "../meaning/item.ts";
import type { UnitSystem } from "../measure/firing.ts";
import { onlyUnit, type QuantityId, quantityOf, refusal } from "../measure/quantity.ts";
import type { Unit } from "../measure/unit.ts";
import type { Origin, Reading } from "./entry.ts";
import type { VisitState } from "./state.ts";

/** The units of each system, of which a quantity can have at most one that is named here first. */
const UNITS_OF: Readonly<Record<UnitSystem, readonly Unit[]>> = {
  us: ["[in_i'H2O]", "[degF]", "[gal_us]/min", "[ft_i]"],
  si: ["Cel", "L/min", "m"],
};

/** The unit that a visit's settings give to a quantity that was said without one. */
function settingsUnit(id: QuantityId, units: UnitSystem): Unit {
  const quantity = quantityOf(id);
  return UNITS_OF[units].find((unit) => quantity.units.includes(unit)) ?? quantity.units[0];
}

/** The unit last said for this quantity in this visit (the gauge on the hose did not change), else the settings' unit. */
function assumedUnit(id: QuantityId, state: VisitState): Unit {
  const before = state.readings.findLast(
    ({ reading }) => reading.quantity === id && reading.origin.unit === "said",
  );
  return before?.reading.unit ?? onlyUnit(id) ?? settingsUnit(id, state.head.units);
}

/**
 * A reading as it goes into the log: what was not said is filled in from the visit and marked "assumed", field by
 * field. Null where the value lies outside its quantity's hard bounds or cannot have its unit.
 */
export function completeReading(item: ReadingItem, state: VisitState): Reading | null {
  const { quantity, value, dial } = item;
  const unit = filled(item.unit, () => assumedUnit(quantity, state));
  if (unit.value === null || refusal(quantity, value, unit.value) !== null) return null;

  const burner = state.firing?.firing ?? null;
  // A burner that is held at a firing rate is running, so its gas pressure is dynamic; before that it is static.
  const condition = filled(item.condition, () =>
    quantity !== "gas-pressure-inlet" ? null : (item.firing ?? burner) === null ? "static" : "dynamic",
  );
  const firing = filled(item.firing, () =>
    quantityOf(quantity).perFiring && condition.value !== "static" ? burner : null,
  );
  return {
    kind: "reading",
    quantity,
    value,
    unit: unit.value,
    firing: firing.value,
    condition: condition.value,
    dial,
    origin: { value: "said", unit: unit.origin, firing: firing.origin, condition: condition.origin },
  };
}

/** What was said, else what is assumed; what stays empty was not assumed. */
function filled<T>(said: T | null, assume: () => T | null): { value: T | null; origin: Origin } {
  if (said !== null) return { value: said, origin: "said" };
  const value = assume();
  return { value, origin: value === null ? "said" : "assumed" };
}
