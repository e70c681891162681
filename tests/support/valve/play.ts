import type { Warning } from "../../../src/judge/judgement.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import { Boiler } from "./boiler.ts";
import { bandOf, inRange, trueCo, type ValveSpec } from "./valve.ts";

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
  /** Whether both firings are truly in range at the end, within 0.1 vol-%. */
  readonly truly: boolean;
  /** Turns that drove true CO over its limit, or true CO2 from one side of its band past the other by more than 0.1. */
  readonly coOver: number;
  readonly passed: number;
  /** Turns with an expectation, and those that truly ended more than 0.1 outside it. */
  readonly expected: number;
  readonly missed: number;
  /** What was said and answered. */
  readonly lines: readonly string[];
}

/** A boiler being worked on: keeps the time and the tally. */
export class Work {
  readonly boiler: Boiler;
  readonly lines: string[] = [];
  seconds = 0;
  adjustments = 0;
  #coOver = 0;
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
    const most = spec.sheet.fuels[spec.fuel]?.[screw].co?.max ?? Number.POSITIVE_INFINITY;
    if (to > from && trueCo(spec, to) > most) this.#coOver += 1;
    const band = bandOf(spec, screw, after.high);
    if ((from < band.min && to > band.max + 0.1) || (from > band.max && to < band.min - 0.1))
      this.#passed += 1;
    if (!expect) return;
    this.#expected += 1;
    if (to < expect.min - 0.1 || to > expect.max + 0.1) this.#missed += 1;
  }

  done(end: Play["end"], reason = "", warnings: readonly Warning[] = []): Play {
    return {
      seed: this.#seed,
      adjustments: this.adjustments,
      minutes: this.seconds / 60,
      end,
      reason,
      warnings,
      truly: inRange(this.boiler.spec, this.boiler.settled, 0.1),
      coOver: this.#coOver,
      passed: this.#passed,
      expected: this.#expected,
      missed: this.#missed,
      lines: this.lines,
    };
  }
}
