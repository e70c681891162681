import { parseArgs } from "node:util";
import { z } from "zod";
import { type Composition, CompositionSchema } from "../combustion/composition.ts";
import type { FlueGasInput } from "../combustion/flue-gas.ts";
import { FUEL_IDS, type FuelId } from "../combustion/fuel.ts";
import type { MeterReading } from "../combustion/gas-input.ts";
import type { WaterCircuit } from "../combustion/water-heat.ts";
import type { Dial } from "../measure/firing.ts";

/** What was asked on the command line, in the engine's terms. */
export interface Request {
  /** Null where only the meter or the water was asked about. */
  readonly flueGas: FlueGasInput | null;
  /** The fuel's name where one was given, beside or instead of a composition. */
  readonly fuelId: FuelId | null;
  readonly meter: MeterReading | null;
  readonly water: WaterCircuit | null;
  /** Whether what follows from the gas and the place is wanted too. */
  readonly details: boolean;
}

export type ReadRequest =
  | { readonly ok: true; readonly request: Request }
  | { readonly ok: false; readonly problems: readonly string[] };

/** The flag of each field of the engine's input. */
export const FLAG = {
  fuel: "composition",
  o2: "o2",
  co2: "co2",
  co: "co",
  flueTemperature: "flue",
  airTemperature: "air",
  altitude: "altitude",
  seconds: "meter-time",
  dial: "dial",
  gasPressure: "gas-pressure",
  gasTemperature: "gas-temperature",
  flow: "flow",
  supplyTemperature: "supply",
  returnTemperature: "return",
} as const;

type NumberField = Exclude<keyof typeof FLAG, "dial" | "fuel">;

const VALUED: readonly string[] = ["fuel", ...Object.values(FLAG)];
/** Flags that say nothing without the O2 or CO2 of the flue gas. */
const OF_FLUE: readonly string[] = ["co", "flue", "air", "details"];
const NAMES: readonly string[] = [...VALUED, "details"];

export const USAGE = [
  `combustion --fuel ${FUEL_IDS.join("|")} [--composition MOLECULE=FRACTION,…]`,
  "[(--o2 % | --co2 %) [--co ppm] [--flue °C --air °C] [--details]] [--altitude m]",
  "[--meter-time s --dial VOLUME(m3|ft3) [--gas-pressure mbar] [--gas-temperature °C]]",
  "[--flow L/min --supply °C --return °C]",
].join(" ");

const DECIMAL = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)`;
const DecimalText = z
  .string()
  .regex(new RegExp(`^${DECIMAL}$`))
  .transform(Number);
const FuelName = z.enum(FUEL_IDS);

/** The request that the flags make, or every problem with them. Ranges are the engine's concern. */
export function readRequest(args: readonly string[]): ReadRequest {
  const { given, problems } = splitFlags(args);
  const numberOf = (field: NumberField): number | undefined => {
    const text = given.get(FLAG[field]);
    if (text === undefined) return undefined;
    const read = DecimalText.safeParse(text);
    if (!read.success) problems.push(`--${FLAG[field]}: expected a number, got "${text}"`);
    return read.data;
  };
  const together = (flags: readonly string[], expected: string) => {
    const found = flags.filter((flag) => given.has(flag)).length;
    const names = flags.map((flag) => `--${flag}`).join(", ");
    if (found > 0 && found < flags.length)
      problems.push(`${names}: expected ${expected}, got ${found === 1 ? "one" : found}`);
  };

  const fuelText = given.get("fuel");
  const fuel = FuelName.safeParse(fuelText);
  const ofFlue = OF_FLUE.filter((flag) => given.has(flag));
  const wantsFlue = given.has("o2") || given.has("co2") || ofFlue.length > 0;
  const wantsWater = given.has("flow");
  const wantsMeter = given.has("meter-time");
  const needsGas = wantsFlue || wantsMeter || !wantsWater;
  if (!fuel.success && (fuelText !== undefined || (needsGas && !given.has("composition")))) {
    const got = fuelText === undefined ? "nothing" : `"${fuelText}"`;
    problems.push(`--fuel: expected one of ${FUEL_IDS.join(", ")}, got ${got}`);
  }
  const composition = compositionOf(given.get("composition"), problems);
  const o2 = numberOf("o2");
  const co2 = numberOf("co2");
  if ((wantsFlue || !(wantsMeter || wantsWater)) && given.has("o2") === given.has("co2")) {
    const got = given.has("o2") ? "both: one follows from the other" : "neither";
    problems.push(`--o2, --co2: expected exactly one of them, got ${got}`);
  }
  together(["flue", "air"], "both temperatures or neither");
  together(["meter-time", "dial"], "both or neither");
  together(["flow", "supply", "return"], "all of them or none");
  if (!wantsMeter && (given.has("gas-pressure") || given.has("gas-temperature")))
    problems.push("--gas-pressure, --gas-temperature: expected only beside --meter-time and --dial");
  const altitude = numberOf("altitude");
  const rest = {
    co: numberOf("co"),
    flueTemperature: numberOf("flueTemperature"),
    airTemperature: numberOf("airTemperature"),
    altitude,
  };
  const seconds = numberOf("seconds");
  const dial = dialOf(given.get("dial"), problems);
  const gas = { gasPressure: numberOf("gasPressure"), gasTemperature: numberOf("gasTemperature"), altitude };
  const flow = numberOf("flow");
  const supplyTemperature = numberOf("supplyTemperature");
  const returnTemperature = numberOf("returnTemperature");

  const source = composition ?? fuel.data;
  if (problems.length > 0) return { ok: false, problems };
  return {
    ok: true,
    request: {
      flueGas: source === undefined || !wantsFlue ? null : { fuel: source, ...rest, ...oneOf(o2, co2) },
      fuelId: fuel.data ?? null,
      meter:
        source === undefined || seconds === undefined || dial === undefined
          ? null
          : { fuel: source, seconds, dial, ...gas },
      water:
        flow === undefined || supplyTemperature === undefined || returnTemperature === undefined
          ? null
          : { flow, supplyTemperature, returnTemperature },
      details: given.has("details"),
    },
  };
}

function oneOf(o2: number | undefined, co2: number | undefined): { o2: number } | { co2: number } {
  return o2 !== undefined ? { o2 } : { co2: co2 ?? Number.NaN };
}

const VOLUME = new RegExp(`^(${DECIMAL}) ?(m3|ft3)$`);
const DIAL_UNITS: Readonly<Record<string, Dial["unit"]>> = { m3: "m3", ft3: "[ft_i]3" };

function dialOf(text: string | undefined, problems: string[]): Dial | undefined {
  if (text === undefined) return undefined;
  const [, value, unit] = VOLUME.exec(text) ?? [];
  const code = unit === undefined ? undefined : DIAL_UNITS[unit];
  if (code !== undefined) return { value: Number(value), unit: code };
  problems.push(`--dial: expected a volume with its unit, 0.01m3 or 2ft3, got "${text}"`);
  return undefined;
}

const PART = new RegExp(String.raw`^\s*([a-z][a-z-]*)\s*=\s*(${DECIMAL})\s*$`);

function compositionOf(text: string | undefined, problems: string[]): Composition | undefined {
  if (text === undefined) return undefined;
  const before = problems.length;
  const fractions = new Map<string, number>();
  for (const part of text.split(",")) {
    const [, name, value] = PART.exec(part) ?? [];
    if (name === undefined) problems.push(`--composition: expected MOLECULE=FRACTION, got "${part}"`);
    else if (fractions.has(name)) problems.push(`--composition: ${name}: expected once, got twice`);
    else fractions.set(name, Number(value));
  }
  if (problems.length > before) return undefined;
  const read = CompositionSchema.safeParse(Object.fromEntries(fractions));
  for (const { path, message } of read.error?.issues ?? [])
    problems.push(`--composition: ${[...path.map(String), message].join(": ")}`);
  return read.data;
}

/** The value of each flag. Not strict: a negative number may follow a flag, and every problem is told, not the first. */
function splitFlags(args: readonly string[]): { given: Map<string, string>; problems: string[] } {
  const given = new Map<string, string>();
  const problems: string[] = [];
  const options = {
    ...Object.fromEntries(VALUED.map((name) => [name, { type: "string" as const }])),
    details: { type: "boolean" as const },
  };
  const { tokens } = parseArgs({ args: [...args], options, strict: false, tokens: true });
  for (const token of tokens) {
    if (token.kind === "positional") problems.push(`expected only flags, got "${token.value}"`);
    if (token.kind !== "option") continue;
    if (!NAMES.includes(token.name)) {
      problems.push(`${token.rawName}: expected one of ${NAMES.map((name) => `--${name}`).join(", ")}`);
    } else if (given.has(token.name)) {
      problems.push(`${token.rawName}: expected once, got twice`);
    } else if (token.name === "details" && token.value !== undefined) {
      problems.push(`--details: expected no value, got "${token.value}"`);
    } else {
      given.set(token.name, token.value ?? "");
    }
  }
  return { given, problems };
}
