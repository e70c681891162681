import { visitFrom } from "../../../src/record/bundle.ts";
import { exportOf, type KeptVisit, merge } from "../../../src/record/office/kept.ts";
import { NOTHING_FOUND } from "../../../src/record/office/log-found.ts";
import type { Visit } from "../../../src/visit/visit.ts";

export const TAKEN_AT = "2026-11-26T08:00:00.000Z";

/** A visit as the office keeps it once it was taken in. */
export function keptVisit(visit: Visit): KeptVisit {
  const { kept } = merge([], exportOf(visit, NOTHING_FOUND, "file.json", TAKEN_AT), visitOf);
  if (!kept) throw new Error("Expected a kept visit.");
  return kept;
}

export function visitOf(text: string): Visit {
  const read = visitFrom(JSON.parse(text));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.visit;
}
