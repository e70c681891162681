import type { Entry } from "../../visit/entry.ts";
import type { Visit } from "../../visit/visit.ts";
import { inOrder } from "../sheet-file.ts";

/** How two exports of one visit stand to each other: the second goes on from the first, or falls behind it, or they part. */
export type Relation = "same" | "newer" | "older" | "forked";

/**
 * How `incoming` stands to `kept`, which has the same id. A log is only ever added to, so one begins with the other or somebody
 * changed it.
 */
export function relationOf(incoming: Visit, kept: Visit): Relation {
  if (headText(incoming) !== headText(kept)) return "forked";
  const [a, b] = [incoming.entries, kept.entries];
  const shared = Math.min(a.length, b.length);
  for (let i = 0; i < shared; i += 1) if (!isSameEntry(a[i], b[i])) return "forked";
  if (a.length !== b.length) return a.length > b.length ? "newer" : "older";
  const more = byIntegrity(incoming, kept);
  return more === 0 ? "same" : more > 0 ? "newer" : "older";
}

/**
 * Of two with the same entries the one that says more of how they are checked goes on from the other: it was signed since.
 * Which signatures are valid is looked at elsewhere; nothing that came in is lost.
 */
function byIntegrity({ integrity: a }: Visit, { integrity: b }: Visit): number {
  const count = (a?.signatures.length ?? -1) - (b?.signatures.length ?? -1);
  if (count !== 0 || !a || !b) return count;
  const [first, second] = [JSON.stringify(a), JSON.stringify(b)];
  return first === second ? 0 : first > second ? 1 : -1;
}

/** All that is known of one visit: what stands, what it superseded, and whether its log was seen to go on in two ways. */
export interface Revisions {
  readonly standing: Visit;
  /** The others, each once, the longest first. */
  readonly superseded: readonly Visit[];
  readonly forked: boolean;
}

/**
 * Sorts exports of one visit, whatever order they came in: one that another goes on from is superseded; of those that part,
 * the one with the later last entry stands. Throws RangeError for none: a fault of the caller.
 */
export function revisionsOf(exports: readonly Visit[]): Revisions {
  const each = exports.filter(
    (visit, place) => !exports.slice(0, place).some((other) => relationOf(visit, other) === "same"),
  );
  const ends = each.filter((visit) => !each.some((other) => relationOf(other, visit) === "newer"));
  const [standing] = [...ends].sort(byLatest);
  if (!standing) throw new RangeError("Expected at least one export of the visit, found none.");
  const superseded = each
    .filter((visit) => visit !== standing)
    .sort((a, b) => byLength(a, b) || byLatest(a, b));
  return { standing, superseded, forked: ends.length > 1 };
}

/** When the last entry was made, ISO 8601; of a visit without entries when it was started. */
export function endedAt({ head, entries }: Visit): string {
  return entries.at(-1)?.at ?? head.startedAt;
}

function byLength(a: Visit, b: Visit): number {
  return b.entries.length - a.entries.length;
}

function byLatest(a: Visit, b: Visit): number {
  const later = Date.parse(endedAt(b)) - Date.parse(endedAt(a));
  return later || byLength(a, b) || byText(a, b);
}

/** So that it never hangs on the order in which they came. */
function byText(a: Visit, b: Visit): number {
  const [first, second] = [JSON.stringify(a), JSON.stringify(b)];
  return first < second ? -1 : first > second ? 1 : 0;
}

/** Fields are in the order of the types: zod has built them anew. */
function headText({ head }: Visit): string {
  return JSON.stringify({ ...head, sheet: head.sheet && inOrder(head.sheet) });
}

function isSameEntry(a: Entry | undefined, b: Entry | undefined): boolean {
  return a?.id === b?.id && JSON.stringify(a) === JSON.stringify(b);
}
