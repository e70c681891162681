import type { VisitHead } from "../visit/visit.ts";

/** Why nothing can be judged, in a sentence; "" where the sheet has limits for the visit's gas. */
export function noLimits({ sheet, fuel }: Pick<VisitHead, "sheet" | "fuel">): string {
  if (!sheet) return "No sheet, not judged.";
  return sheet.fuels[fuel] ? "" : `This sheet has no limits for ${fuel.replace("-", " ")}.`;
}
