import type { VisitHead } from "../visit/visit.ts";

/** Why nothing can be judged, in a sentence; "" where the sheet has limits for the visit's gas. */
export function noLimits({ sheet, fuel }: Pick<VisitHead, "sheet" | "fuel">): string {
  if (!sheet) return "No sheet, not judged.";
  return sheet.fuels[fuel] ? "" : `This sheet has no limits for ${fuel.replace("-", " ")}.`;
}

/** Whether the sheet limits low-fire CO2 only by the high-fire one. */
export function lowHangsOnHigh({ sheet, fuel }: Pick<VisitHead, "sheet" | "fuel">): boolean {
  const low = sheet?.fuels[fuel]?.low.co2;
  return low !== undefined && "belowHigh" in low;
}
