import type { Stage, Verdict } from "../judge/judgement.ts";
import type { Check, Firing, Fuel } from "../measure/firing.ts";
import { harmless } from "../measure/harmless.ts";
import { shownNumber } from "../measure/show.ts";
import { zoneFormats } from "../measure/zone.ts";
import type { Sheet } from "../visit/sheet.ts";

export const FUEL_NAMES: Readonly<Record<Fuel, string>> = {
  "natural-gas": "Natural gas",
  propane: "Propane",
};

/** Where a sheet's limits come from, in one line. */
export function sourceOf({ source }: Sheet): string {
  const edition = source.edition && `, edition ${source.edition}`;
  const page = source.page && `, page ${source.page}`;
  return harmless(
    `From: ${source.document}${edition}${page}. Entered by ${source.enteredBy} on ${shownDay(source.enteredOn)}.`,
  );
}

export const CHECK_NAMES: Readonly<Record<Check, string>> = {
  isolation: "Gas isolated before opening the tap",
  "pressure-tap": "Pressure tap open, manometer on",
  "gas-on": "Gas back on",
  "analyser-zeroed": "Analyser zeroed in fresh air",
  "low-fire-cap": "Low-fire screw cap back on",
  "test-mode-off": "Test mode off",
  "manometer-removed": "Manometer removed",
  "pressure-test-screw": "Pressure test screw closed",
  "test-port": "Flue test port plugged",
  panel: "Panel back on",
  "leak-check": "Leak check made",
};

const STAGE_NAMES: Readonly<Record<Stage, string>> = {
  "before-test": "Before the test",
  "gas-pressure": "Gas pressure",
  "high-fire": "High fire",
  "low-fire": "Low fire",
  "recheck-high": "Recheck high fire",
  "close-up": "Close up",
  finished: "Finished",
};

const STAGE_FIRINGS: Readonly<Partial<Record<Stage, Firing>>> = {
  "high-fire": "high",
  "low-fire": "low",
  "recheck-high": "high",
};

/** Where the work is: "Step: high fire"; where that is in another firing than the boiler is in, what comes next. */
export function stepSaid(stage: Stage, firing: Firing | null): string {
  const needs = STAGE_FIRINGS[stage];
  const isElsewhere = needs !== undefined && firing !== null && needs !== firing;
  return `${isElsewhere ? "Next" : "Step"}: ${STAGE_NAMES[stage].toLowerCase()}`;
}

export const VERDICT_WORDS: Readonly<Record<Verdict["verdict"], string>> = {
  pass: "In limits",
  fail: "Out of limits",
  wait: "Too early",
  "no-limit": "No limit known",
};

export function firingName(firing: Firing): string {
  return firing === "high" ? "High fire" : "Low fire";
}

export function screwName(adjuster: Firing): string {
  return adjuster === "high" ? "High-fire screw" : "Low-fire screw";
}

/** The small steps that a hand can do and that have no sign of their own, then the fractions of a turn. */
const SMALL_STEPS: readonly (readonly [number, string])[] = [
  [1 / 12, "1/12"],
  [1 / 10, "1/10"],
];

const FRACTIONS: readonly (readonly [number, string])[] = [
  [0.125, "⅛"],
  [0.25, "¼"],
  [0.375, "⅜"],
  [0.5, "½"],
  [0.625, "⅝"],
  [0.75, "¾"],
  [0.875, "⅞"],
];

/** How far, without direction: "½ turn", "1/12 turn", "1¼ turns". `turns` in full turns of either sign. */
export function shownDistance(turns: number): string {
  const size = Math.abs(turns);
  const whole = Math.floor(size);
  const near = ([value]: readonly [number, string]) => Math.abs(size - whole - value) < 0.002;
  const small = whole === 0 && SMALL_STEPS.find(near);
  const fraction = FRACTIONS.find(near);
  const number = small
    ? small[1]
    : fraction
      ? `${whole || ""}${fraction[1]}`
      : shownNumber(Number(size.toFixed(3)));
  return `${number} ${size > 1 ? "turns" : "turn"}`;
}

/** Which way: clockwise is positive. */
export function direction(turns: number): "clockwise" | "counterclockwise" {
  return turns >= 0 ? "clockwise" : "counterclockwise";
}

/** "½ turn clockwise". */
export function shownTurns(turns: number): string {
  return `${shownDistance(turns)} ${direction(turns)}`;
}

/** The limit of a verdict in its own unit: "8.5 to 9.5", "up to 150", "from 4.5". */
export function shownLimit({
  min,
  max,
}: {
  readonly min: number | null;
  readonly max: number | null;
}): string {
  if (min !== null && max !== null) return `${shownNumber(min)} to ${shownNumber(max)}`;
  if (max !== null) return `up to ${shownNumber(max)}`;
  return min === null ? "" : `from ${shownNumber(min)}`;
}

const clock = zoneFormats("en-GB", { timeStyle: "medium", hourCycle: "h23" });
const dayAndTime = zoneFormats("en-GB", {
  day: "numeric",
  month: "short",
  year: "numeric",
  hour: "2-digit",
  minute: "2-digit",
});

/** Time of day, 24 h with seconds, in an IANA zone, UTC where that is null. */
export function clockTime(at: string, zone: string | null): string {
  return clock(zone).format(new Date(at));
}

/** A day, given as YYYY-MM-DD: "25 Nov 2026". */
export function shownDay(day: string): string {
  return DAYS.format(new Date(`${day}T00:00:00Z`));
}

/** Made once: a list of many visits asks for many. */
const DAYS = new Intl.DateTimeFormat("en-GB", {
  timeZone: "UTC",
  day: "numeric",
  month: "short",
  year: "numeric",
});

/** Day and time of day: "25 Nov 2026, 09:41". */
export function dayTime(at: string, zone: string | null): string {
  return dayAndTime(zone).format(new Date(at));
}
