import { co2FromO2, co2Max } from "../../combustion/dilution.ts";
import { Firing, Fuel } from "../../measure/firing.ts";
import { isUsual, type QuantityId, quantityOf } from "../../measure/quantity.ts";
import { shownNumber, shownValue } from "../../measure/show.ts";
import { shownUnit, type Unit } from "../../measure/unit.ts";
import { firingName, screwName } from "../../record/wording.ts";
import type { FuelLimits } from "../../visit/sheet.ts";
import type { FieldNote, SheetParts, SheetSurroundings } from "./parts.ts";

type Edges = { readonly min?: number | undefined; readonly max?: number | undefined; readonly unit: Unit };

/** O2 and CO2 bands of one firing may miss each other by this much CO2, %: makers round both. */
const ROUNDING = 0.3;

/** What can be so but seldom is, with what to look at. It hinders nothing: the maker's paper prevails. */
export function doubtsAbout(
  { source, fuels, adjusters, settleSeconds, closing }: SheetParts,
  title: string,
  { otherTitles, today }: SheetSurroundings,
): FieldNote[] {
  const doubts: FieldNote[] = [];
  const doubt: Doubt = (path, message, isEmpty = false) => doubts.push({ path, message, isEmpty });

  if (source.document !== "" && (source.edition === "" || source.page === "")) {
    doubt("source.edition", "Without edition and page nobody can look it up in the maker's paper.", true);
  }
  if (source.enteredOn > today) doubt("source.enteredOn", "This day is yet to come.");
  if (title.trim() !== "" && otherTitles.some((other) => sameTitle(other, title))) {
    doubt("title", "Another sheet has this title: at the boiler they look the same.");
  }
  for (const fuel of Fuel.options) {
    const limits = fuels[fuel];
    if (limits) aboutFuel(fuel, limits, doubt);
  }
  for (const firing of Firing.options) {
    aboutScrew(firing, adjusters[firing], fuels, doubt);
    if (settleSeconds[firing] === 0) {
      doubt(`settleSeconds.${firing}`, "With 0 seconds no reading ever has to settle: it is judged at once.");
    }
  }
  if (closing.length === 0) {
    doubt("closing", "Nothing has to be closed: caps and plugs left open will not be asked about.");
  }
  return doubts;
}

/** `isEmpty`: it is about what is not there. */
type Doubt = (path: string, message: string, isEmpty?: boolean) => void;

function aboutFuel(fuel: Fuel, limits: FuelLimits, doubt: Doubt): void {
  const at = `fuels.${fuel}`;
  const { high, low, "gas-pressure-inlet": pressure } = limits;
  const lowBand = low.co2 && !("belowHigh" in low.co2) ? low.co2 : undefined;
  for (const [firing, co2] of [
    ["high", high.co2],
    ["low", lowBand],
  ] as const) {
    if (co2) aboutCo2(fuel, co2, limits[firing].o2, `${at}.${firing}.co2`, doubt);
  }
  if (!high.co2) {
    doubt(`${at}.high.co2`, "No CO2 for high fire: it will not be judged, and no turn advised.", true);
  }
  if (!low.co2)
    doubt(`${at}.low.co2`, "No CO2 for low fire: it will not be judged, and no turn advised.", true);
  for (const firing of Firing.options) {
    if (limits[firing].co?.max === undefined) {
      doubt(
        `${at}.${firing}.co`,
        `No highest CO for ${firingName(firing).toLowerCase()}: it will not be judged by this sheet.`,
        true,
      );
    }
    unusual("co", limits[firing].co, `${at}.${firing}.co`, doubt);
    unusual("o2", limits[firing].o2, `${at}.${firing}.o2`, doubt);
  }
  if (lowBand?.max !== undefined && high.co2?.max !== undefined && lowBand.max > high.co2.max) {
    doubt(`${at}.low.co2`, "Low fire may lie above high fire by this: with most valves it does not.");
  }
  if (low.co2 && "belowHigh" in low.co2) {
    if (!high.co2) {
      doubt(
        `${at}.low.co2`,
        "It hangs on high fire, for which there is no CO2: it will not be judged either.",
      );
    }
    if (low.co2.belowHigh.min < 0) {
      doubt(`${at}.low.co2`, "Low fire may lie above high fire by this: with most valves it does not.");
    }
  }
  aboutPressure(pressure, `${at}.gas-pressure-inlet`, doubt);
}

function aboutCo2(fuel: Fuel, co2: Edges, o2: Edges | undefined, path: string, doubt: Doubt): void {
  const most = co2Max(fuel);
  if (co2.max !== undefined && co2.max > most) {
    doubt(
      path,
      `This gas gives at most about ${shownNumber(Number(most.toFixed(1)))} % CO2, with no air to spare.`,
    );
  }
  if (co2.min === undefined || co2.max === undefined) {
    doubt(path, `Only one end: CO2 ${co2.min === undefined ? "too low" : "too high"} will not be noticed.`);
  }
  unusual("co2", co2, path, doubt);
  const [leanest, richest] = [co2FromO2(fuel, o2?.max ?? 0), co2FromO2(fuel, o2?.min ?? 0)];
  if (o2?.min === undefined || o2.max === undefined || leanest === null || richest === null) return;
  if ((co2.max ?? most) < leanest - ROUNDING || (co2.min ?? 0) > richest + ROUNDING) {
    const [from, to] = [leanest, richest].map((value) => shownNumber(Number(value.toFixed(1))));
    doubt(path, `The O2 here belongs to ${from} to ${to} % CO2 of this gas: both cannot be met.`);
  }
}

/** A slip of the decimal point most often. */
function unusual(id: QuantityId, edges: Edges | undefined, path: string, doubt: Doubt): void {
  for (const end of ["min", "max"] as const) {
    const value = edges?.[end];
    if (edges === undefined || value === undefined || value === 0 || isUsual(id, value, edges.unit)) continue;
    doubt(
      `${path}.${end}`,
      `${shownValue(value, edges.unit)} is unusual for ${quantityOf(id).name}: is the decimal point where it should be?`,
    );
  }
}

function aboutPressure(pressure: FuelLimits["gas-pressure-inlet"], path: string, doubt: Doubt): void {
  const { static: off, dynamic: on, maxDrop } = pressure ?? {};
  if (!off && !on && !maxDrop) {
    doubt(path, "No limits for the gas pressure: it will not be judged by this sheet.", true);
  }
  unusual("gas-pressure-inlet", off, `${path}.static`, doubt);
  unusual("gas-pressure-inlet", on, `${path}.dynamic`, doubt);
  const units = [off, on, maxDrop].flatMap((one) => (one ? [one.unit] : []));
  const [first] = units;
  if (first !== undefined && units.some((unit) => unit !== first)) {
    const names = [...new Set(units)].map(shownUnit).join(" and ");
    doubt(path, `The pressures are in ${names}: is each unit as on the paper?`);
  }
  if (
    off &&
    on &&
    off.unit === on.unit &&
    on.min !== undefined &&
    off.max !== undefined &&
    on.min > off.max
  ) {
    doubt(`${path}.dynamic`, "Dynamic pressure above static pressure: the two may have changed places.");
  }
}

function aboutScrew(
  firing: Firing,
  adjuster: SheetParts["adjusters"]["high"],
  fuels: SheetParts["fuels"],
  doubt: Doubt,
): void {
  if (!adjuster || adjuster.percentPerTurn === null) return;
  const moved = adjuster.percentPerTurn * adjuster.largestStepTurns;
  const widths = Object.values(fuels).flatMap((limits) => {
    const band = limits?.[firing].co2;
    if (!band) return [];
    const { min, max } = "belowHigh" in band ? band.belowHigh : band;
    return min === undefined || max === undefined ? [] : [max - min];
  });
  const narrowest = Math.min(...widths);
  if (moved <= narrowest) return;
  doubt(
    `adjusters.${firing}.largestStepTurns`,
    `One such step of the ${screwName(firing).toLowerCase()} moves CO2 by ${shownNumber(Number(moved.toFixed(2)))} %, right through the band.`,
  );
}

function sameTitle(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
