import type { Warning } from "../../../src/judge/judgement.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import { Boiler } from "./boiler.ts";
import { bandOf, inRange, isCoOver, type ValveSpec } from "./valve.ts";

/** How one boiler went. */
export interface Play {
  readonly seed: number;
  readonly adjustments: number;
  readonly minutes: number;
  /** Both firings in range by the readings; stopped with a reason; or neither after very many steps. */
  readonly end: "in-range" | "stopped" | "endless";
  /** Why it was stopped, and the warnings then. */
  readonly reason: string;
  readonly warnings: readonly Warning[];
  /** Whether both firings are truly in range at the end: within 0.1 vol-%, and as an analyser without noise would show. */
  readonly truly: boolean;
  readonly exactly: boolean;
  /** Whether true CO, at either firing, is over its limit at the end. */
  readonly coTruly: boolean;
  /** Turns after which true CO of the firing at hand was higher than before and over its limit. */
  readonly coOver: number;
  /** The same of the firing that was not at hand: it shows at the next change. */
  readonly coOverElsewhere: number;
  /** Turns that drove true CO2 from one side of its band past the other by more than 0.1 vol-%. */
  readonly passed: number;
  /** Turns with an expectation, and those that truly ended more than 0.1 outside it. */
  readonly expected: number;
  readonly missed: number;
  /** Phrases said, and those of them that were not logged as they were meant. */
  readonly phrases: number;
  readonly misheard: readonly string[];
  /** What was said and answered. */
  readonly lines: readonly string[];
}

/** A boiler being worked on: keeps the time and the tally. */
export class Work {
  readonly boiler: Boiler;
  readonly lines: string[] = [];
  readonly misheard: string[] = [];
  seconds = 0;
  adjustments = 0;
  #coOver = 0;
  #coOverElsewhere = 0;
  #passed = 0;
  #expected = 0;
  #missed = 0;
  readonly #seed: number;

  constructor(spec: ValveSpec, seed: number) {
    this.boiler = new Boiler(spec, seed);
    this.#seed = seed;
  }

  /** Turns a screw and notes what that truly did, once settled. */
  turn(screw: Firing, clockwise: number, expect: { min: number; max: number } | null): void {
    const { spec } = this.boiler;
    const before = this.boiler.settled;
    this.boiler.turn(screw, clockwise, this.seconds);
    this.adjustments += 1;
    const after = this.boiler.settled;
    const [from, to] = [before[screw], after[screw]];
    for (const firing of ["high", "low"] as const) {
      if (after[firing] <= before[firing] || !isCoOver(spec, firing, after[firing])) continue;
      if (firing === this.boiler.firing) this.#coOver += 1;
      else this.#coOverElsewhere += 1;
    }
    const band = bandOf(spec, screw, after.high);
    if ((from < band.min && to > band.max + 0.1) || (from > band.max && to < band.min - 0.1))
      this.#passed += 1;
    if (!expect) return;
    this.#expected += 1;
    if (to < expect.min - 0.1 || to > expect.max + 0.1) this.#missed += 1;
  }

  done(end: Play["end"], reason = "", warnings: readonly Warning[] = []): Play {
    const { spec, settled } = this.boiler;
    return {
      seed: this.#seed,
      adjustments: this.adjustments,
      minutes: this.seconds / 60,
      end,
      reason,
      warnings,
      truly: inRange(spec, settled, 0.1),
      exactly: inRange(spec, settled),
      coTruly: isCoOver(spec, "high", settled.high) || isCoOver(spec, "low", settled.low),
      coOver: this.#coOver,
      coOverElsewhere: this.#coOverElsewhere,
      passed: this.#passed,
      expected: this.#expected,
      missed: this.#missed,
      phrases: this.lines.length,
      misheard: this.misheard,
      lines: this.lines,
    };
  }
}
