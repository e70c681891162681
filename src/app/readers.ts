import type { ZodType } from "zod";
import type { Read, Readers } from "../device/notebook/notebook.ts";
import { problemsOf } from "../record/zod-problems.ts";
import { Entry } from "../visit/entry.ts";
import { Sheet } from "../visit/sheet.ts";
import { VisitHead } from "../visit/visit.ts";

/** The zod schemas as the notebook takes them. */
export const READERS: Readers = {
  head: (value) => read(VisitHead, value),
  entry: (value) => read(Entry, value),
  sheet: (value) => read(Sheet, value),
};

/** A value through its schema: itself, or every problem with its place in one line. */
export function read<T>(schema: ZodType<T>, value: unknown): Read<T> {
  const result = schema.safeParse(value);
  if (result.success) return { ok: true, value: result.data };
  const problems = problemsOf(result.error.issues, value);
  return { ok: false, problem: problems.map(({ path, message }) => `${path} ${message}`.trim()).join(" ") };
}
