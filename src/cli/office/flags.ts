import { parseArgs } from "node:util";
import { z } from "zod";
import { readTarget, type Target } from "./target.ts";

/** The book that is meant where none is named. */
const DEFAULT_TARGET = "office-book";

/** Entries that a transaction holds: enough that its own cost does not count, and memory stays flat. */
const DEFAULT_BATCH = 5000;

/** Tables that can be exported. */
export const EXPORTED = ["readings", "visits", "adjustments", "follow-ups"] as const;
export type Exported = (typeof EXPORTED)[number];

/** What was asked of the office's book. */
export type Request =
  | {
      readonly task: "load";
      readonly target: Target;
      readonly paths: readonly string[];
      readonly batch: number;
    }
  | { readonly task: "visits"; readonly target: Target; readonly since: string | null }
  | { readonly task: "follow-ups"; readonly target: Target; readonly until: string | null }
  | { readonly task: "drift"; readonly target: Target; readonly appliance: string }
  | {
      readonly task: "export";
      readonly target: Target;
      readonly file: string;
      readonly table: Exported;
      /** Writes over what is there. */
      readonly force: boolean;
    };

export type ReadRequest =
  | { readonly ok: true; readonly request: Request }
  | { readonly ok: false; readonly problems: readonly string[] };

type Task = Request["task"];

/** What each task is called with; TARGET: a folder, or postgres://USER@HOST:PORT/DATABASE. */
const USAGES: Readonly<Record<Task, string>> = {
  load: "FILES… [--to TARGET] [--batch ENTRIES]",
  visits: "[--since DAY] [--from TARGET]",
  "follow-ups": "[--until DAY] [--from TARGET]",
  drift: "APPLIANCE [--from TARGET]",
  export: `--parquet FILE.parquet [--force] [--table ${EXPORTED.join("|")}] [--from TARGET]`,
};

const FLAGS: Readonly<Record<Task, readonly string[]>> = {
  load: ["to", "batch"],
  visits: ["since", "from"],
  "follow-ups": ["until", "from"],
  drift: ["from"],
  export: ["parquet", "table", "from", "force"],
};

const TASKS: readonly Task[] = ["load", "visits", "follow-ups", "drift", "export"];

export const USAGE = `office ${TASKS.map((task) => `${task} ${USAGES[task]}`).join(" | ")} (TARGET: a folder, ${DEFAULT_TARGET} where it is left out, or postgres://USER@HOST:PORT/DATABASE)`;

const Day = z.iso.date();

/** The request that the arguments make, or every problem with them. */
export function readRequest([name, ...args]: readonly string[]): ReadRequest {
  const task = TASKS.find((each) => each === name);
  if (!task) {
    const got = name === undefined ? "nothing" : `"${name}"`;
    return { ok: false, problems: [`expected ${oneOf(TASKS)}, got ${got}`] };
  }
  const { given, others, problems } = splitFlags(FLAGS[task], args);
  const refuse = (problem: string) => {
    problems.push(problem);
    return null;
  };
  const day = (flag: "since" | "until"): string | null => {
    const text = given.get(flag);
    if (text === undefined || Day.safeParse(text).success) return text ?? null;
    return refuse(`--${flag}: expected a day such as 2026-11-25, got "${text}"`);
  };
  const batch = (): number => {
    const text = given.get("batch") ?? String(DEFAULT_BATCH);
    if (!/^[1-9]\d{0,5}$/.test(text))
      refuse(`--batch: expected a number of entries from 1 to 999999, got "${text}"`);
    return Number(text);
  };
  const flag = task === "load" ? "to" : "from";
  const read = readTarget(given.get(flag) ?? DEFAULT_TARGET);
  const target = read.ok ? read.target : refuse(`--${flag}: ${read.problem}`);
  const [first] = others;
  const expectNone = () => {
    for (const other of others) problems.push(`expected only flags, got "${other}"`);
  };
  const made = (request: Request | null): ReadRequest =>
    request === null || problems.length > 0
      ? { ok: false, problems: [...problems, `usage: office ${task} ${USAGES[task]}`] }
      : { ok: true, request };

  switch (task) {
    case "load":
      if (first === undefined) problems.push("expected at least one file or folder, or - for standard input");
      return made(target && { task, target, paths: others, batch: batch() });
    case "visits": {
      expectNone();
      const since = day("since");
      return made(target && { task, target, since });
    }
    case "follow-ups": {
      expectNone();
      const until = day("until");
      return made(target && { task, target, until });
    }
    case "drift": {
      if (others.length !== 1 || first?.trim() === "")
        problems.push(
          `expected one appliance, its serial or plant number, got ${others.length === 0 ? "none" : others.map((other) => `"${other}"`).join(", ")}`,
        );
      return made(target && { task, target, appliance: first ?? "" });
    }
    case "export": {
      expectNone();
      const file = given.get("parquet") ?? refuse("--parquet: expected the file to write, got nothing");
      if (file !== null && !file.toLowerCase().endsWith(".parquet"))
        refuse(`--parquet: expected a file ending in .parquet, got "${file}"`);
      const text = given.get("table") ?? "readings";
      const table =
        EXPORTED.find((each) => each === text) ??
        refuse(`--table: expected ${oneOf(EXPORTED)}, got "${text}"`);
      return made(
        target && file !== null && table ? { task, target, file, table, force: given.has("force") } : null,
      );
    }
  }
}

function oneOf(words: readonly string[]): string {
  return `one of ${words.join(", ")}`;
}

/** A flag without a value. */
function isSwitch(name: string): boolean {
  return name === "force";
}

interface Split {
  readonly given: ReadonlyMap<string, string>;
  readonly others: readonly string[];
  readonly problems: string[];
}

/** The value of each flag, and what is no flag. Not strict: every problem is told, not the first. */
function splitFlags(names: readonly string[], args: readonly string[]): Split {
  const given = new Map<string, string>();
  const others: string[] = [];
  const problems: string[] = [];
  const options = Object.fromEntries(
    names.map((name) => [name, { type: isSwitch(name) ? ("boolean" as const) : ("string" as const) }]),
  );
  const { tokens } = parseArgs({ args: [...args], options, strict: false, tokens: true });
  for (const token of tokens) {
    if (token.kind === "positional") others.push(token.value);
    if (token.kind !== "option") continue;
    if (!names.includes(token.name))
      problems.push(`${token.rawName}: expected ${oneOf(names.map((name) => `--${name}`))}`);
    else if (given.has(token.name)) problems.push(`${token.rawName}: expected once, got twice`);
    else if (isSwitch(token.name)) {
      if (token.value === undefined) given.set(token.name, "");
      else problems.push(`${token.rawName}: expected no value, got "${token.value}"`);
    } else if (
      token.value === undefined ||
      token.value === "" ||
      (!token.inlineValue && token.value.startsWith("--"))
    )
      problems.push(
        `${token.rawName}: expected a value, got ${token.value === undefined || token.value === "" ? "nothing" : `"${token.value}"`}`,
      );
    else given.set(token.name, token.value);
  }
  return { given, others, problems };
}
