import { parseArgs } from "node:util";
import { TABLES, type TableName } from "../../record/export/tables.ts";
import { KINDS, type Kind } from "./kinds.ts";

const ENDINGS = KINDS.map(({ ending }) => ending);
const NAMES = Object.keys(TABLES);

export const USAGE = `export FILE… --to OUT(${ENDINGS.join("|")}) [--table ${NAMES.join("|")}] [--skip-bad] [--force]`;

export interface ExportFlags {
  readonly files: readonly string[];
  readonly to: string;
  readonly kind: Kind;
  readonly table: TableName;
  /** Goes on with the sound ones where some are bad. */
  readonly skipBad: boolean;
  /** Writes over what is there. */
  readonly force: boolean;
}

export type FlagsRead =
  | { readonly ok: true; readonly flags: ExportFlags }
  | { readonly ok: false; readonly problems: readonly string[] };

const OPTIONS = {
  to: { type: "string" },
  table: { type: "string" },
  "skip-bad": { type: "boolean" },
  force: { type: "boolean" },
} as const;

/** Reads the flags of `export`; all problems are told. */
export function readFlags(args: readonly string[]): FlagsRead {
  let given: {
    values: { to?: string; table?: string; "skip-bad"?: boolean; force?: boolean };
    positionals: string[];
  };
  try {
    given = parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true });
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    return { ok: false, problems: [`expected ${USAGE}: ${found}`] };
  }
  const { positionals: files, values } = given;
  const { to = "", table = "readings", force = false, "skip-bad": skipBad = false } = values;
  const kind = KINDS.find(({ ending }) => to.endsWith(ending));
  const problems: string[] = [];
  if (files.length === 0) problems.push("expected at least one visit bundle, found none");
  if (!kind)
    problems.push(
      `--to: expected a file ending in ${listed(ENDINGS)}, found ${to === "" ? "none" : `"${to}"`}`,
    );
  if (!isTable(table)) problems.push(`--table: expected ${listed(NAMES)}, found "${table}"`);
  else if (kind && values.table !== undefined && kind.ending !== ".csv")
    problems.push(`--table: expected with a .csv file only, found with "${to}"`);
  if (problems.length > 0 || !kind || !isTable(table)) return { ok: false, problems };
  return { ok: true, flags: { files, to, kind, table, skipBad, force } };
}

function isTable(name: string): name is TableName {
  return NAMES.includes(name);
}

function listed(words: readonly string[]): string {
  return new Intl.ListFormat("en-GB", { type: "disjunction" }).format(words);
}
