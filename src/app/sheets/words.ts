import { Firing, Fuel } from "../../measure/firing.ts";
import { shownNumber } from "../../measure/show.ts";
import { shownUnit, type Unit } from "../../measure/unit.ts";
import {
  CHECK_NAMES,
  FUEL_NAMES,
  firingName,
  screwName,
  shownDistance,
  shownLimit,
} from "../../record/wording.ts";
import type { Adjuster, FuelLimits } from "../../visit/sheet.ts";
import type { Seconds, SheetParts } from "./parts.ts";

/** A heading and what the sheet says under it. */
export interface SheetSection {
  readonly heading: string;
  readonly lines: readonly string[];
}

const UNREADABLE = "Not readable yet: something here has to be mended.";

/** What a sheet says, in plain words; of parts that cannot be read, that. */
export function sheetInWords({ fuels, adjusters, settleSeconds, closing }: SheetParts): SheetSection[] {
  return [
    ...Fuel.options.flatMap((fuel) => {
      const limits = fuels[fuel];
      if (limits === undefined) return [];
      return [{ heading: FUEL_NAMES[fuel], lines: limits ? fuelInWords(limits) : [UNREADABLE] }];
    }),
    {
      heading: "Screws",
      lines: Firing.options.map((firing) => `${screwName(firing)}: ${adjusterInWords(adjusters[firing])}`),
    },
    {
      heading: "Settling",
      lines: Firing.options.map((firing) => settlingInWords(firing, settleSeconds[firing])),
    },
    {
      heading: "To be closed, in this order",
      lines:
        closing.length === 0 ? ["Nothing."] : closing.map((check, at) => `${at + 1}. ${CHECK_NAMES[check]}`),
    },
  ];
}

function fuelInWords(limits: FuelLimits): string[] {
  const { static: off, dynamic: on, maxDrop } = limits["gas-pressure-inlet"] ?? {};
  const pressure = [
    ...(off ? [`static ${band(off)}`] : []),
    ...(on ? [`dynamic ${band(on)}`] : []),
    ...(maxDrop ? [`falling by at most ${shownNumber(maxDrop.value)} ${shownUnit(maxDrop.unit)}`] : []),
  ];
  return [
    ...Firing.options.map((firing) => `${firingName(firing)}: ${flueInWords(limits[firing])}`),
    sentence(`Gas pressure: ${pressure.length === 0 ? "no limit known" : pressure.join(", ")}`),
  ];
}

function flueInWords({ co2, o2, co }: FuelLimits["high"] | FuelLimits["low"]): string {
  const said = [
    ...(co2 ? [`CO2 ${"belowHigh" in co2 ? belowInWords(co2.belowHigh) : band(co2)}`] : []),
    ...(o2 ? [`O2 ${band(o2)}`] : []),
    ...(co ? [`CO ${band(co)}`] : []),
  ];
  return said.length === 0 ? "no limit known." : sentence(said.join(", "));
}

/** One full stop, also behind "in. w.c.". */
function sentence(text: string): string {
  return text.endsWith(".") ? text : `${text}.`;
}

function belowInWords({ min, max }: { readonly min: number; readonly max: number }): string {
  if (min < 0) return `from ${shownNumber(max)} % below to ${shownNumber(-min)} % above the high-fire value`;
  if (min === 0) return `the same as at high fire, or up to ${shownNumber(max)} % lower`;
  return `${shownNumber(min)} to ${shownNumber(max)} % lower than at high fire`;
}

function band({
  min,
  max,
  unit,
}: {
  readonly min?: number | undefined;
  readonly max?: number | undefined;
  readonly unit: Unit;
}): string {
  return `${shownLimit({ min: min ?? null, max: max ?? null })} ${shownUnit(unit)}`;
}

function adjusterInWords(adjuster: Adjuster | null): string {
  if (!adjuster) return "not readable yet.";
  const { co2Rises, percentPerTurn, largestStepTurns, underCap } = adjuster;
  const effect =
    percentPerTurn === null
      ? "the maker gives no figure for a turn"
      : `about ${shownNumber(percentPerTurn)} % CO2 a turn`;
  const cap = underCap ? ", under a cap" : "";
  return `${co2Rises} raises CO2, ${effect}, at most ${shownDistance(largestStepTurns)} at a time${cap}.`;
}

function settlingInWords(firing: Firing, seconds: Seconds): string {
  if (seconds === null) return `${firingName(firing)}: not filled in yet.`;
  if (seconds === "unreadable") return `${firingName(firing)}: not readable yet.`;
  const at = `${firingName(firing)}: a reading counts`;
  if (seconds === 0) return `${at} at once.`;
  return `${at} from ${shownNumber(seconds)} s after a turn.`;
}
