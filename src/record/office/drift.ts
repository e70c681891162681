import { Firing, type Fuel } from "../../measure/firing.ts";
import { epochMs } from "../../measure/instant.ts";
import type { FlueFigures, OfficeRow } from "./row.ts";

/** How an appliance was found and left in one of its visits, and where its screws stood then. */
export interface DriftPoint {
  readonly visitId: string;
  /** ISO 8601. */
  readonly startedAt: string;
  readonly fuel: Fuel;
  readonly found: OfficeRow["found"];
  readonly left: OfficeRow["left"];
  /** Turns of each screw since before the first of these visits, clockwise positive; as far as visits know. */
  readonly position: Readonly<Record<Firing, number>>;
  /** What it was found at less what it was left at in the visit before, with the same gas; CO2 in vol-%, CO in ppm. */
  readonly drift: Readonly<Record<Firing, Change>>;
}

/** A change of CO2 (vol-%) and of CO (ppm); null where one of the two was not read. */
export interface Change {
  readonly co2: number | null;
  readonly co: number | null;
}

/** The history of one appliance, oldest first. */
export interface History {
  /** Its number, as the latest visit has it. */
  readonly appliance: string;
  readonly points: readonly DriftPoint[];
}

/** By what visits are of one appliance: its number, however it was spaced and capitalised; null where none was given. */
export function applianceKey({ appliance }: Pick<OfficeRow, "appliance">): string | null {
  const key = appliance
    .normalize("NFKC")
    .replace(/[\s\p{Cf}]+/gu, "")
    .toUpperCase();
  return key === "" ? null : key;
}

/** The histories of all appliances that have a number, the one that was visited last first. */
export function historiesOf(rows: readonly OfficeRow[]): History[] {
  const byKey = new Map<string, OfficeRow[]>();
  for (const row of rows) {
    const key = applianceKey(row);
    if (key === null) continue;
    const same = byKey.get(key);
    if (same) same.push(row);
    else byKey.set(key, [row]);
  }
  const lastOf = ({ points }: History) => epochMs(points.at(-1)?.startedAt ?? "");
  return [...byKey.values()].map(historyOf).sort((a, b) => lastOf(b) - lastOf(a));
}

/** The history of the rows of one appliance. */
export function historyOf(rows: readonly OfficeRow[]): History {
  const inTime = [...rows].sort((a, b) => epochMs(a.startedAt) - epochMs(b.startedAt));
  const position = { high: 0, low: 0 };
  const points = inTime.map((row, place): DriftPoint => {
    for (const adjuster of Firing.options)
      position[adjuster] = rounded(position[adjuster] + row.turns[adjuster]);
    const before = inTime[place - 1];
    const since = (firing: Firing): Change =>
      before?.fuel === row.fuel ? change(before.left[firing], row.found[firing]) : { co2: null, co: null };
    return {
      visitId: row.id,
      startedAt: row.startedAt,
      fuel: row.fuel,
      found: row.found,
      left: row.left,
      position: { ...position },
      drift: { high: since("high"), low: since("low") },
    };
  });
  return { appliance: inTime.at(-1)?.appliance ?? "", points };
}

function change(left: FlueFigures, found: FlueFigures): Change {
  const of = (quantity: "co2" | "co") => {
    const [before, after] = [left[quantity], found[quantity]];
    return before && after ? rounded(after.value - before.value) : null;
  };
  return { co2: of("co2"), co: of("co") };
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
