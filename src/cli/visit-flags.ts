import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import type { z } from "zod";
import { noLimits } from "../answer/no-limits.ts";
import { Talkativeness } from "../answer/talk.ts";
import { Fuel, UnitSystem } from "../measure/firing.ts";
import { readSheet } from "../record/sheet-file.ts";
import { decodeText } from "../record/utf8.ts";
import type { Sheet } from "../visit/sheet.ts";

export const USAGE =
  "visit [--sheet FILE] [--fuel natural-gas|propane] [--units us|si] [--talk short|normal|full]";

/** What a visit on the command line starts with. */
export interface VisitSettings {
  readonly sheet: Sheet | null;
  readonly fuel: Fuel;
  readonly units: UnitSystem;
  readonly talk: Talkativeness;
  /** What the person should know before the first line, in sentences. */
  readonly notices: readonly string[];
}

type Read<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      readonly problems: readonly string[];
      /** Whether the flags themselves cannot be read; else a file that they name. */
      readonly isMisuse: boolean;
    };

/** Reads the flags and the sheet that they name; all problems are told. */
export function readVisitSettings(args: readonly string[]): Read<VisitSettings> {
  const flags = readFlags(args);
  if (!flags.ok) return flags;
  const { fuel = null, units = "us", talk = "normal", sheet: file } = flags.value;
  const read = {
    fuel: fuel === null ? ({ ok: true, value: null } as const) : oneOf("--fuel", Fuel, fuel),
    units: oneOf("--units", UnitSystem, units),
    talk: oneOf("--talk", Talkativeness, talk),
    sheet: file === undefined ? ({ ok: true, value: null } as const) : readSheetFile(file),
  };
  if (!read.fuel.ok || !read.units.ok || !read.talk.ok || !read.sheet.ok) {
    const bad = Object.values(read).filter((each) => !each.ok);
    return {
      ok: false,
      problems: bad.flatMap(({ problems }) => problems),
      isMisuse: bad.some(({ isMisuse }) => isMisuse),
    };
  }
  const sheet = read.sheet.value;
  const value = { sheet, units: read.units.value, talk: read.talk.value, ...gasOf(sheet, read.fuel.value) };
  return { ok: true, value };
}

/** The gas that was chosen; else natural gas, or the sheet's only gas where it has no natural gas. */
function gasOf(sheet: Sheet | null, chosen: Fuel | null): Pick<VisitSettings, "fuel" | "notices"> {
  if (chosen !== null) {
    const missing = sheet === null ? "" : noLimits({ sheet, fuel: chosen });
    return { fuel: chosen, notices: missing === "" ? [] : [`${missing} Nothing is judged.`] };
  }
  const only = Fuel.options.find((fuel) => sheet?.fuels[fuel]);
  if (!only || sheet?.fuels["natural-gas"]) return { fuel: "natural-gas", notices: [] };
  return { fuel: only, notices: [`The sheet has limits for ${only} only: taken as the gas.`] };
}

function oneOf<T extends string>(
  flag: string,
  options: z.ZodType<T> & { options: T[] },
  text: string,
): Read<T> {
  const read = options.safeParse(text);
  if (read.success) return { ok: true, value: read.data };
  const list = new Intl.ListFormat("en-GB", { type: "disjunction" }).format(options.options);
  return { ok: false, problems: [`${flag}: expected ${list}, got "${text}"`], isMisuse: true };
}

const FLAGS = {
  sheet: { type: "string" },
  fuel: { type: "string" },
  units: { type: "string" },
  talk: { type: "string" },
} as const;

function readFlags(args: readonly string[]): Read<{ [flag in keyof typeof FLAGS]?: string }> {
  try {
    return { ok: true, value: parseArgs({ args: [...args], options: FLAGS }).values };
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    const problem = `expected --sheet FILE, --fuel, --units and --talk only: ${found}`;
    return { ok: false, problems: [problem], isMisuse: true };
  }
}

function readSheetFile(file: string): Read<Sheet> {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "unknown error";
    return { ok: false, problems: [`${file}: expected a readable limits sheet (${code})`], isMisuse: false };
  }
  const decoded = decodeText(bytes);
  const read = decoded.ok ? readSheet(decoded.text) : decoded;
  if (read.ok) return { ok: true, value: read.sheet };
  return {
    ok: false,
    problems: read.problems.map(
      ({ path, message }) => `${file}: ${path === "" ? "" : `${path}: `}${message}`,
    ),
    isMisuse: false,
  };
}
