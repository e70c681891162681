import type { Situation } from "../situation.ts";
import { o2Co2Disagree } from "./agreement.ts";
import { readTooEarly } from "./early.ts";
import { airFreeOver400, coOverGuidance, coOverLimit, richAndRising } from "./flue-co.ts";
import { gasPressureNotRead, gasPressureOut } from "./gas-pressure.ts";
import { leftOpen, leftUnproved } from "./left-open.ts";
import { movedWrongWay, noProgress, noResponse } from "./movement.ts";
import { ambientCo, coAlarm, gasSmell } from "./room.ts";
import type { Danger, WarningRule } from "./rule.ts";
import { lowBeforeHigh, stepTooLarge, wrongFiring } from "./screw.ts";
import { wrongScrew } from "./wrong-screw.ts";

/** Every warning, gravest first: the order in which they are said. */
const RULES: readonly WarningRule[] = [
  gasSmell,
  coAlarm,
  ambientCo,
  airFreeOver400,
  coOverLimit,
  coOverGuidance,
  richAndRising,
  gasPressureOut,
  o2Co2Disagree,
  wrongFiring,
  lowBeforeHigh,
  gasPressureNotRead,
  movedWrongWay,
  noResponse,
  noProgress,
  wrongScrew,
  stepTooLarge,
  readTooEarly,
  leftUnproved,
  leftOpen,
];

export function dangersOf(s: Situation): Danger[] {
  return RULES.map((rule) => rule(s)).filter((danger) => danger !== null);
}
