import type { Warning } from "../judgement.ts";
import type { Situation } from "../situation.ts";

/** A warning, and whether work has to stop until a new reading has removed its cause. */
export interface Danger {
  readonly code: Warning["code"];
  readonly text: string;
  readonly stop: boolean;
  /** Whether it is shown until its cause is gone, acknowledged or not, though work goes on: the burner must not run till then. */
  readonly stands?: boolean;
}

/** One rule of the list. A `stop` danger is found as long as its cause stands; the others when the utterance brings them. */
export type WarningRule = (s: Situation) => Danger | null;
