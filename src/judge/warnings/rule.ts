import type { Warning } from "../judgement.ts";
import type { Situation } from "../situation.ts";

/** A warning, and whether work has to stop until a new reading has removed its cause. */
export interface Danger {
  readonly code: Warning["code"];
  readonly text: string;
  readonly stop: boolean;
}

/** One rule of the list. A `stop` danger is found as long as its cause stands; the others when the utterance brings them. */
export type WarningRule = (s: Situation) => Danger | null;
