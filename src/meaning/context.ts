import type { Condition, Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";

/** The quantity that a bare number would answer. */
export interface Question {
  readonly quantity: QuantityId;
  readonly firing: Firing | null;
  readonly condition: Condition | null;
}

/** What the visit knows that helps to understand the next phrase. */
export interface Context {
  /** The firing mode the boiler is in, where known. */
  readonly firing: Firing | null;
  /** The question that was asked aloud and not yet answered. */
  readonly question: Question | null;
}

export const NO_CONTEXT: Context = { firing: null, question: null };
