import { parseArgs } from "node:util";
import { z } from "zod";
import { type FlueGasInput, type FlueGasProblem, flueGas } from "../combustion/flue-gas.ts";
import { FUEL_IDS } from "../combustion/fuel.ts";
import { refuse, type Verb } from "./verb.ts";

const usage = `combustion --fuel ${FUEL_IDS.join("|")} (--o2 X | --co2 X) [--co PPM] [--flue T --air T] [--altitude M]`;

/** The flag of each field of the engine's input. */
const FLAG = {
  o2: "o2",
  co2: "co2",
  co: "co",
  flueTemperature: "flue",
  airTemperature: "air",
  altitude: "altitude",
} as const satisfies Record<FlueGasProblem["path"], string>;

const NAMES: readonly string[] = ["fuel", ...Object.values(FLAG)];

/** Exit status 0 with one JSON line; 2 where the flags cannot be read; 1 where the numbers cannot be right. */
export const combustion: Verb = {
  name: "combustion",
  usage,
  run: async (args, io) => {
    const read = readFlags(args);
    if (!read.ok) return refuse(io, "combustion", read.problems, 2);
    const result = flueGas(read.input);
    if (!result.ok) {
      const problems = result.problems.map(({ path, message }) => `--${FLAG[path]}: ${message}`);
      return refuse(io, "combustion", problems, 1);
    }
    io.json(result.flueGas);
    return 0;
  },
};

type Read =
  | { readonly ok: true; readonly input: FlueGasInput }
  | { readonly ok: false; readonly problems: readonly string[] };

const number = z
  .string()
  .regex(/^[+-]?(\d+\.?\d*|\.\d+)$/)
  .transform(Number);
const fuelId = z.enum(FUEL_IDS);

function readFlags(args: readonly string[]): Read {
  const { given, problems } = splitFlags(args);
  const numberOf = (path: FlueGasProblem["path"]): number | undefined => {
    const text = given.get(FLAG[path]);
    if (text === undefined) return undefined;
    const read = number.safeParse(text);
    if (!read.success) problems.push(`--${FLAG[path]}: expected a number, got "${text}"`);
    return read.data;
  };

  const fuelText = given.get("fuel");
  const fuel = fuelId.safeParse(fuelText);
  if (!fuel.success) {
    const got = fuelText === undefined ? "nothing" : `"${fuelText}"`;
    problems.push(`--fuel: expected one of ${FUEL_IDS.join(", ")}, got ${got}`);
  }
  const o2 = numberOf("o2");
  const co2 = numberOf("co2");
  if (given.has("o2") === given.has("co2")) {
    const got = given.has("o2") ? "both: one follows from the other" : "neither";
    problems.push(`--o2, --co2: expected exactly one of them, got ${got}`);
  }
  if (given.has("flue") !== given.has("air")) {
    problems.push("--flue, --air: expected both temperatures or neither, got one");
  }
  const rest = {
    co: numberOf("co"),
    flueTemperature: numberOf("flueTemperature"),
    airTemperature: numberOf("airTemperature"),
    altitude: numberOf("altitude"),
  };
  if (problems.length > 0 || !fuel.success) return { ok: false, problems };
  if (o2 !== undefined) return { ok: true, input: { fuel: fuel.data, o2, ...rest } };
  return { ok: true, input: { fuel: fuel.data, co2: co2 ?? Number.NaN, ...rest } };
}

/** The value of each flag. Not strict: a negative number may follow a flag, and every problem is told, not the first. */
function splitFlags(args: readonly string[]): { given: Map<string, string>; problems: string[] } {
  const given = new Map<string, string>();
  const problems: string[] = [];
  const options = Object.fromEntries(NAMES.map((name) => [name, { type: "string" as const }]));
  const { tokens } = parseArgs({ args: [...args], options, strict: false, tokens: true });
  for (const token of tokens) {
    if (token.kind === "positional") problems.push(`expected only flags, got "${token.value}"`);
    if (token.kind !== "option") continue;
    if (!NAMES.includes(token.name)) {
      problems.push(`${token.rawName}: expected one of ${NAMES.map((name) => `--${name}`).join(", ")}`);
    } else if (given.has(token.name)) {
      problems.push(`${token.rawName}: expected once, got twice`);
    } else {
      given.set(token.name, token.value ?? "");
    }
  }
  return { given, problems };
}
