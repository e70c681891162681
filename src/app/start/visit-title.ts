import type { VisitHead } from "../../visit/visit.ts";

/** A visit's name in lists. */
export function titleOf(head: VisitHead): string {
  return head.title || head.sheet?.title || "Visit without a sheet";
}
