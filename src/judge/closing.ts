import { CLOSING_CHECKS, type ClosingCheck } from "../measure/firing.ts";
import type { Situation } from "./situation.ts";

/** What still has to be confirmed before leaving, in the sheet's order; without a sheet, everything. */
export function openChecks(s: Situation): ClosingCheck[] {
  return (s.sheet?.closing ?? CLOSING_CHECKS).filter((item) => s.state.checks[item] !== true);
}

/** Each check as a thing still to do, by its name alone. */
export const CHECK_NAME: Readonly<Record<ClosingCheck, string>> = {
  "low-fire-cap": "low fire cap",
  "test-mode-off": "test mode",
  "manometer-removed": "manometer",
  "pressure-test-screw": "test screw",
  "test-port": "test port",
  panel: "panel",
  "leak-check": "leak check",
};

/** Each check as a thing still to do. */
export const CHECK_TO_DO: Readonly<Record<ClosingCheck, string>> = {
  "low-fire-cap": "refit low fire cap",
  "test-mode-off": "switch test mode off",
  "manometer-removed": "take the manometer off",
  "pressure-test-screw": "close the pressure test screw",
  "test-port": "plug the test port",
  panel: "put the panel on",
  "leak-check": "check for gas leaks",
};
