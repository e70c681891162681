import { spokenBody } from "../../src/answer/things.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import type { Visit } from "../../src/visit/visit.ts";

/** What stands in the log of a visit, as it is read back, in order. */
export function spokenLog(visit: Visit): string {
  return foldVisit(visit)
    .items.filter(({ struckBy }) => struckBy === null)
    .map(({ body }) => spokenBody(body))
    .join("; ");
}
