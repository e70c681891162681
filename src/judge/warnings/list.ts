import type { Situation } from "../situation.ts";
import { o2Co2Disagree } from "./agreement.ts";
import { ambientCo } from "./ambient.ts";
import { readTooEarly } from "./early.ts";
import { airFreeOver400, coOverLimit, richAndRising } from "./flue-co.ts";
import { gasPressureOut } from "./gas-pressure.ts";
import { leftOpen } from "./left-open.ts";
import { movedWrongWay, noProgress, noResponse } from "./movement.ts";
import type { Danger, WarningRule } from "./rule.ts";
import { lowBeforeHigh, stepTooLarge, wrongFiring } from "./screw.ts";

/** Every warning, gravest first: the order in which they are said. */
const RULES: readonly WarningRule[] = [
  ambientCo,
  airFreeOver400,
  coOverLimit,
  richAndRising,
  gasPressureOut,
  o2Co2Disagree,
  wrongFiring,
  lowBeforeHigh,
  movedWrongWay,
  noResponse,
  noProgress,
  stepTooLarge,
  readTooEarly,
  leftOpen,
];

export function dangersOf(s: Situation): Danger[] {
  return RULES.map((rule) => rule(s)).filter((danger) => danger !== null);
}
