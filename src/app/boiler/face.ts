import type { Reply } from "../../answer/turn.ts";
import type { Verdict } from "../../judge/judgement.ts";
import type { Firing } from "../../measure/firing.ts";
import { quantityOf } from "../../measure/quantity.ts";
import { shownValue } from "../../measure/show.ts";
import { shownText } from "../../measure/text.ts";
import { shownUnit } from "../../measure/unit.ts";
import { firingName, shownLimit, VERDICT_WORDS } from "../../record/wording.ts";
import { type SignalWord, signalWordOf } from "./signal-word.ts";

/** A verdict as shown: mark, word and limit beside what was read. */
export interface VerdictLine {
  readonly verdict: Verdict["verdict"];
  /** "CO2". */
  readonly name: string;
  /** "9.2 %". */
  readonly value: string;
  /** Empty where nothing is to be said: room CO has no limit on a sheet, its thresholds are warnings. */
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
    | { readonly kind: "warning"; readonly word: SignalWord; readonly texts: readonly string[] }
    | { readonly kind: "stop"; readonly reason: string }
    | { readonly kind: "turn"; readonly turn: TurnFace }
    | { readonly kind: "reading"; readonly line: VerdictLine }
    /** What was done, small: the ring of the settle time is the large thing. */
    | { readonly kind: "wait"; readonly headline: string }
    | { readonly kind: "plain"; readonly headline: string };
  /** What the reply puts first, where something more pressing took its place and no verdict below shows it; else null. */
  readonly headline: string | null;
  readonly detail: string;
  /** The verdicts that are not shown large. */
  readonly verdicts: readonly VerdictLine[];
  /** The turn that is advised while a warning is the large thing; null where none is. */
  readonly turnBelow: TurnFace | null;
}

/** Chooses what is shown large: warnings, then a stop, then a turn to make, then what was read. */
export function faceOf(reply: Reply): Face {
  const { warnings, advice } = reply.judgement;
  const isStep = reply.headline === stepOf(reply);
  const headline = isStep && advice.action === "wait" ? "Let it settle" : reply.headline;
  const verdicts = reply.judgement.verdicts.map((verdict) => verdictLine(verdict, headline));
  const turn = advice.action === "turn" ? { adjuster: advice.adjuster, turns: advice.turns } : null;
  const first = verdicts.find((line) => `${line.name} ${line.value}` === headline);
  // The turn, the reason or the line at the foot tells the next step already.
  const isTold = isStep && (warnings.length > 0 || turn !== null || advice.action === "stop");
  const below = {
    headline: first || isTold ? null : headline,
    detail: detailOf(reply),
    verdicts,
    turnBelow: null,
  };

  const word = signalWordOf(warnings);
  if (word) {
    const texts = warnings.map((warning) => shownText(warning.text));
    return { ...below, large: { kind: "warning", word, texts }, turnBelow: turn };
  }
  if (advice.action === "stop") {
    return { ...below, large: { kind: "stop", reason: shownText(advice.reason) } };
  }
  if (turn) return { ...below, large: { kind: "turn", turn } };
  if (!first) {
    const kind = advice.action === "wait" ? "wait" : "plain";
    return { ...below, large: { kind, headline }, headline: null };
  }
  return {
    ...below,
    large: { kind: "reading", line: first },
    verdicts: verdicts.filter((line) => line !== first),
  };
}

/** The next step as a headline says it. */
function stepOf({ detail }: Reply): string {
  return detail.replace(/\.$/, "");
}

/** The line at the foot: what comes next, unless it is on the plate in another form. */
function detailOf(reply: Reply): string {
  const { detail, headline } = reply;
  const { advice, warnings, stage } = reply.judgement;
  switch (advice.action) {
    case "turn": {
      const { min, max } = advice.expect;
      return `Then wait ${advice.waitSeconds} s. Expect CO2 ${shownLimit({ min, max })} %.`;
    }
    case "wait":
      return "";
    case "stop":
      return warnings.length > 0 || detail === shownText(advice.reason) ? "" : detail;
    case "read":
    case "go-to":
    case "recheck-high":
    case "close-up":
      return headline === stepOf(reply) && warnings.length === 0 ? "" : detail;
    case "none":
      // The headline has said it.
      return stage === "finished" || headline === stepOf(reply) ? "" : detail;
  }
}

function verdictLine(
  { quantity, firing, value, unit, verdict, limit }: Verdict,
  headline: string,
): VerdictLine {
  const [name, shown] = [quantityOf(quantity).name, shownValue(value, unit)];
  // Of another firing than the boiler is in, where the headline says so.
  const elsewhere = firing && `${firingName(firing)} ${name}`;
  return {
    verdict,
    name: elsewhere && headline === `${elsewhere} ${shown}` ? elsewhere : name,
    value: shown,
    word: quantity === "co-ambient" ? "" : VERDICT_WORDS[verdict],
    limit: limit ? `${shownLimit(limit)} ${shownUnit(unit)}` : "",
  };
}

/** Letters of a word that fit on the narrowest phone as large as a value is set. */
const MOST_IN_A_VALUE = 4;

export type Size = "value" | "short" | "medium" | "long" | "whole";

/** How large a text can be set: the longer, the smaller. A word is never broken, in a wide letter on a narrow phone either. */
export function sizeOf(text: string): Size {
  const longest = Math.max(...text.split(" ").map((word) => word.length));
  if (text.length <= 7 && longest <= MOST_IN_A_VALUE) return "value";
  if (text.length <= 11) return "short";
  if (text.length <= 26) return "medium";
  return text.length <= 70 ? "long" : "whole";
}

/**
 * What the style needs to set a warning as large as its plate can take it: one over the root of its letters (the area that
 * they fill goes by the square of their size), and how many letters its longest word has.
 */
export interface Fit {
  readonly "--fit": string;
  readonly "--longest": string;
}

/** The fit of texts that stand below one another. */
export function fitOf(texts: readonly string[]): Fit {
  // Each begins on a line of its own: half a line is lost with it.
  const letters = texts.reduce((sum, text) => sum + text.length + 8, 0);
  const longest = Math.max(4, ...texts.flatMap((text) => text.split(/[\s-]+/)).map((word) => word.length));
  return { "--fit": (1 / Math.sqrt(Math.max(1, letters))).toFixed(4), "--longest": String(longest) };
}
