import { shownNumber } from "../../measure/show.ts";
import type { Change, DriftPoint, History } from "../../record/office/drift.ts";
import { shownDay, shownTurns } from "../../record/wording.ts";

/** The day of a visit of a history as shown. */
export function historyDay({ startedAt }: Pick<DriftPoint, "startedAt">): string {
  return shownDay(startedAt.slice(0, 10));
}

/** How far it drifted since the visit before: "CO2 up 0.3 %, CO down 5 ppm"; "" where it is not known. */
export function driftWords({ co2, co }: Change): string {
  return [co2 === null ? "" : `CO2 ${moved(co2, "%")}`, co === null ? "" : `CO ${moved(co, "ppm")}`]
    .filter((part) => part !== "")
    .join(", ");
}

function moved(by: number, unit: string): string {
  return by === 0 ? "unchanged" : `${by > 0 ? "up" : "down"} ${shownNumber(Math.abs(by))} ${unit}`;
}

/** Where a screw stands, from before the first of the visits: "½ turn clockwise", "as at first". */
export function screwStand(turns: number): string {
  return turns === 0 ? "as at first" : shownTurns(turns);
}

/** The history of an appliance in one text, for who does not see the drawing. */
export function historySaid({ points }: History): string {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return "No visit.";
  const left = (["high", "low"] as const).flatMap((firing) =>
    (["co2", "co"] as const).flatMap((quantity) => {
      const values = points.flatMap((point) => point.left[firing][quantity]?.value ?? []);
      const [from, to] = [values[0], values.at(-1)];
      if (from === undefined || to === undefined) return [];
      const name = `${quantity === "co2" ? "CO2" : "CO"}, ${firing} fire, as left`;
      const unit = quantity === "co2" ? "%" : "ppm";
      return [
        values.length === 1
          ? `${name}: ${shownNumber(from)} ${unit}`
          : `${name}: from ${shownNumber(from)} to ${shownNumber(to)} ${unit} in ${values.length} visits`,
      ];
    }),
  );
  const screws = (["high", "low"] as const).map(
    (adjuster) => `${adjuster}-fire screw: ${screwStand(last.position[adjuster])}`,
  );
  return `${[`${points.length} visits from ${historyDay(first)} to ${historyDay(last)}`, ...left, ...screws].join("; ")}.`;
}
