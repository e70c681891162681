import { randomUUID } from "node:crypto";
import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { takeTurn } from "../answer/turn.ts";
import { createParser } from "../meaning/parser.ts";
import { Fuel, UnitSystem } from "../measure/firing.ts";
import { epochMs, isoTime } from "../measure/instant.ts";
import { readSheet } from "../record/sheet-file.ts";
import { decodeText } from "../record/utf8.ts";
import type { Sheet } from "../visit/sheet.ts";
import type { Visit } from "../visit/visit.ts";
import { loadLanguage } from "./language.ts";
import { refuse, type Verb } from "./verb.ts";

const FLAGS = { sheet: { type: "string" }, fuel: { type: "string" }, units: { type: "string" } } as const;

interface Settings {
  readonly sheet: Sheet | null;
  readonly fuel: Fuel;
  readonly units: UnitSystem;
}

/** Plays a visit from lines of `phrase` or `ISO-time TAB phrase`; without a time, the wall clock's is taken. */
export const visit: Verb = {
  name: "visit",
  usage: "visit [--sheet FILE] [--fuel natural-gas|propane] [--units us|si]",
  run: async (args, io) => {
    const settings = readSettings(args);
    if (!settings.ok) return refuse(io, "visit", settings.problems, 1);
    const parser = createParser(loadLanguage());
    let visit: Visit | null = null;
    let number = 0;
    for await (const line of io.lines) {
      number += 1;
      if (line.trim() === "") continue;
      const { time, phrase } = split(line);
      const at = time === null ? isoTime(Date.now()) : utc(time);
      if (at === null) {
        const problem = `line ${number}: expected an ISO 8601 time before the tab, got "${time}"`;
        return refuse(io, "visit", [problem], 1);
      }
      visit ??= begin(settings.value, at);
      const turn = takeTurn(parser, visit, { text: phrase, engine: "typed", confidence: 1 }, at, randomUUID);
      visit = turn.visit;
      const { answer, judgement } = turn.reply;
      const { verdicts, advice, warnings, stage, next } = judgement;
      const { items: heard, unsure } = turn.meaning;
      io.json({ at, heard, unsure, answer, verdicts, advice, warnings, stage, next });
    }
    return 0;
  },
};

function begin({ sheet, fuel, units }: Settings, startedAt: string): Visit {
  const title = sheet?.title ?? "Visit without a limits sheet";
  return {
    format: "burnerside-visit/1",
    head: { id: randomUUID(), title, startedAt, zone: null, fuel, units, sheet },
    entries: [],
  };
}

function split(line: string): { time: string | null; phrase: string } {
  const tab = line.indexOf("\t");
  return tab < 0
    ? { time: null, phrase: line }
    : { time: line.slice(0, tab).trim(), phrase: line.slice(tab + 1) };
}

/** ISO 8601 with a date, a time of day and an offset or Z, in UTC; null where it is something else. */
function utc(time: string): string | null {
  const shape = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)$/;
  const ms = shape.test(time) ? epochMs(time) : Number.NaN;
  return Number.isNaN(ms) ? null : isoTime(ms);
}

type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly string[] };

function readSettings(args: readonly string[]): Read<Settings> {
  const flags = readFlags(args);
  if (!flags.ok) return flags;
  const problems: string[] = [];
  const { sheet, fuel = "natural-gas", units = "us" } = flags.value;
  const fuelRead = Fuel.safeParse(fuel);
  if (!fuelRead.success) problems.push(`--fuel: expected ${Fuel.options.join(" or ")}, got "${fuel}"`);
  const unitsRead = UnitSystem.safeParse(units);
  if (!unitsRead.success)
    problems.push(`--units: expected ${UnitSystem.options.join(" or ")}, got "${units}"`);
  const sheetRead = sheet === undefined ? { ok: true as const, value: null } : readSheetFile(sheet);
  if (!sheetRead.ok) problems.push(...sheetRead.problems);
  if (!fuelRead.success || !unitsRead.success || !sheetRead.ok) return { ok: false, problems };
  return { ok: true, value: { sheet: sheetRead.value, fuel: fuelRead.data, units: unitsRead.data } };
}

function readFlags(args: readonly string[]): Read<{ sheet?: string; fuel?: string; units?: string }> {
  try {
    return { ok: true, value: parseArgs({ args: [...args], options: FLAGS }).values };
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    return { ok: false, problems: [`expected --sheet FILE, --fuel and --units only: ${found}`] };
  }
}

function readSheetFile(file: string): Read<Sheet> {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "unknown error";
    return { ok: false, problems: [`${file}: expected a readable limits sheet (${code})`] };
  }
  const decoded = decodeText(bytes);
  const read = decoded.ok ? readSheet(decoded.text) : decoded;
  if (read.ok) return { ok: true, value: read.sheet };
  return {
    ok: false,
    problems: read.problems.map(
      ({ path, message }) => `${file}: ${path === "" ? "" : `${path}: `}${message}`,
    ),
  };
}
