import { type Edges, edgesFor } from "../judge/limits.ts";
import { type Situation, situationOf } from "../judge/situation.ts";
import type { Firing } from "../measure/firing.ts";
import { quantityOf } from "../measure/quantity.ts";
import { spokenNumber, spokenUnitOf } from "../measure/show.ts";
import { sentence } from "../measure/text.ts";
import type { BelowHigh, FuelLimits } from "../visit/sheet.ts";
import type { VisitState } from "../visit/state.ts";
import { noLimits } from "./no-limits.ts";
import { spokenBand } from "./verdict-words.ts";

const UNKNOWN = "no limit known";

/** The limits of the present firing with their units; before a firing is known, those of the gas pressure. */
export function limitsSaid(state: VisitState, now: string): string[] {
  const s = situationOf(state, [], now);
  if (!s.sheet) return ["No sheet, no limit known."];
  if (!s.limits) return [noLimits(state.head)];
  const firing = state.firing?.firing;
  return firing ? flueLimits(s, s.limits, firing) : [pressureLimits(s.limits)];
}

function flueLimits(s: Situation, limits: FuelLimits, firing: Firing): string[] {
  // Oxygen is limited by few sheets: nothing is said of it where it is not.
  const quantities = (["co2", "co", "o2"] as const).filter((q) => q !== "o2" || limits[firing].o2);
  return [
    sentence(`${firing} fire`),
    ...quantities.map((quantity) => {
      const edges = edgesFor(s, { quantity, firing, condition: null });
      const own = limits[firing][quantity];
      const said = edges ? withUnit(edges) : own && "belowHigh" in own ? belowHighSaid(own) : UNKNOWN;
      return sentence(`${quantityOf(quantity).spoken} ${said}`);
    }),
  ];
}

/** A band that hangs on a high fire not yet accepted. */
function belowHighSaid({ belowHigh: { min, max } }: BelowHigh): string {
  const side = (below: number) =>
    below === 0 ? "high fire" : `${spokenNumber(Math.abs(below))} ${below > 0 ? "below" : "above"} high fire`;
  return `from ${side(max)} to ${side(min)}, once that is set`;
}

function pressureLimits(limits: FuelLimits): string {
  const { static: resting, dynamic, maxDrop } = limits["gas-pressure-inlet"] ?? {};
  if (!resting && !dynamic && !maxDrop) return sentence(`gas pressure: ${UNKNOWN}`);
  const drop = maxDrop ? `, drop ${withUnit({ max: maxDrop.value, unit: maxDrop.unit })}` : "";
  const said = (edges: Edges | undefined) => (edges ? withUnit(edges) : UNKNOWN);
  return sentence(`gas pressure: static ${said(resting)}, dynamic ${said(dynamic)}${drop}`);
}

function withUnit({ min, max, unit }: Edges): string {
  const last = max ?? min;
  return `${spokenBand({ min, max })} ${last === undefined ? "" : spokenUnitOf(last, unit)}`;
}
