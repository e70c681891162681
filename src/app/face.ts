import type { Reply } from "../answer/turn.ts";
import type { Verdict } from "../judge/judgement.ts";
import type { Firing } from "../measure/firing.ts";
import { quantityOf } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import { shownUnit } from "../measure/unit.ts";
import { shownLimit, VERDICT_WORDS } from "./wording.ts";

/** A verdict as shown: mark, word and limit beside the value. */
export interface VerdictLine {
  readonly verdict: Verdict["verdict"];
  readonly value: string;
  readonly word: string;
  /** "8.5 to 9.5 %"; empty where no limit is known. */
  readonly limit: string;
}

/** An advised turn of a screw. */
export interface TurnFace {
  readonly adjuster: Firing;
  /** Signed turns, clockwise positive. */
  readonly turns: number;
}

/** The one large thing at the boiler, and what stands under it. */
export interface Face {
  readonly large:
    | { readonly kind: "warning"; readonly texts: readonly string[] }
    | { readonly kind: "stop"; readonly reason: string }
    | { readonly kind: "turn"; readonly turn: TurnFace }
    | { readonly kind: "plain"; readonly headline: string };
  /** What the reply puts first, where something more pressing took its place; else null. */
  readonly headline: string | null;
  readonly detail: string;
  readonly verdicts: readonly VerdictLine[];
  /** The turn that is advised while a warning is the large thing; null where none is. */
  readonly turnBelow: TurnFace | null;
}

/** Chooses what is shown large: warnings, then a stop, then a turn to make, then what was read. */
export function faceOf(reply: Reply): Face {
  const { warnings, advice, verdicts } = reply.judgement;
  const turn = advice.action === "turn" ? { adjuster: advice.adjuster, turns: advice.turns } : null;
  const rest = { detail: reply.detail, verdicts: verdicts.map(verdictLine) };
  if (warnings.length > 0) {
    const texts = warnings.map((warning) => warning.text);
    return { ...rest, large: { kind: "warning", texts }, headline: reply.headline, turnBelow: turn };
  }
  if (advice.action === "stop") {
    return {
      ...rest,
      large: { kind: "stop", reason: advice.reason },
      headline: reply.headline,
      turnBelow: null,
    };
  }
  if (turn) return { ...rest, large: { kind: "turn", turn }, headline: reply.headline, turnBelow: null };
  return { ...rest, large: { kind: "plain", headline: reply.headline }, headline: null, turnBelow: null };
}

function verdictLine({ quantity, value, unit, verdict, limit }: Verdict): VerdictLine {
  return {
    verdict,
    value: `${quantityOf(quantity).name} ${shownValue(value, unit)}`,
    word: VERDICT_WORDS[verdict],
    limit: limit ? `${shownLimit(limit)} ${shownUnit(unit)}` : "",
  };
}

/** How large a headline can be set: the longer, the smaller. */
export function sizeOf(text: string): "short" | "medium" | "long" {
  if (text.length <= 11) return "short";
  return text.length <= 26 ? "medium" : "long";
}
