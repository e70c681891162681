import { importVisit } from "../../record/bundle.ts";
import { importVisits } from "../../record/export/bundles.ts";
import { sizeProblem } from "../../record/format.ts";
import type { Problem } from "../../record/problem.ts";
import type { Visit } from "../../visit/visit.ts";
import { textOf } from "../read-file.ts";

/** A bundle, or a line of a combined file, that is none. */
export interface BadBundle {
  readonly file: string;
  /** Of a combined file, from 1. */
  readonly line?: number;
  readonly problems: readonly Problem[];
}

export interface ReadVisits {
  readonly visits: readonly Visit[];
  readonly bad: readonly BadBundle[];
}

/** How a combined file's name ends. */
const COMBINED = ".jsonl";

/** Larger ones would not fit one text. */
const LARGEST_MIB = 256;

/** Reads bundles and combined files, each visit checked on its own; all problems are told. */
export async function readVisits(files: readonly string[]): Promise<ReadVisits> {
  const visits: Visit[] = [];
  const bad: BadBundle[] = [];
  for (const file of files) {
    const combined = file.endsWith(COMBINED);
    const read = await textOf(file, combined ? combinedSizeProblem : (bytes) => sizeProblem(bytes, "visit"));
    if (!read.ok) {
      bad.push({ file, problems: read.problems });
      continue;
    }
    const lines = combined ? importVisits(read.text) : [{ line: undefined, read: importVisit(read.text) }];
    for (const { line, read: each } of lines) {
      if (each.ok) visits.push(each.visit);
      else bad.push({ file, ...(line === undefined ? {} : { line }), problems: each.problems });
    }
  }
  return { visits, bad };
}

function combinedSizeProblem(bytes: number): Problem | null {
  if (bytes <= LARGEST_MIB * 1024 * 1024) return null;
  const size = Math.ceil(bytes / 1024 / 1024);
  return { path: "", message: `Expected a combined file of at most ${LARGEST_MIB} MiB, found ${size} MiB.` };
}
