import type { Check, Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { Unit } from "../measure/unit.ts";
import type { Question } from "./question.ts";

/** A reading that stands, against which a rival is weighed. */
export interface Known {
  readonly quantity: QuantityId;
  readonly value: number;
  readonly unit: Unit | null;
  readonly firing: Firing | null;
}

/** Volume percent in dry flue gas without excess air, and in dry air: how O2 and CO2 of one moment hang together. */
export interface Gas {
  readonly co2Max: number;
  readonly o2InAir: number;
}

/** What the visit knows that helps to understand the next phrase. */
export interface Context {
  /** The firing mode the boiler is in, where known. */
  readonly firing: Firing | null;
  /** The question that was asked aloud and not yet answered. */
  readonly question: Question | null;
  /** The last value of each quantity in each firing, the newest last. */
  readonly known: readonly Known[];
  readonly gas: Gas | null;
  /** The last thing logged, where it was a turn: what "another quarter" and "no, an eighth" go on from. */
  readonly turn: { readonly adjuster: Firing; readonly turns: number } | null;
  /** The firing of the last thing logged, where it was a reading: what "no, low fire" mends. */
  readonly read: Firing | null;
  /** What was asked to be confirmed: its bare name ("cap") says that it is done. */
  readonly open: readonly Check[];
}

export const NO_CONTEXT: Context = {
  firing: null,
  question: null,
  known: [],
  gas: null,
  turn: null,
  read: null,
  open: [],
};
