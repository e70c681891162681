import { CHECK_TO_DO, openChecks } from "../closing.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";

/** Finishing with closing checks undone. */
export function leftOpen(s: Situation): Danger | null {
  const open = s.state.finished ? openChecks(s) : [];
  if (open.length === 0) return null;
  return {
    code: "left-open",
    text: `Not done: ${open.map((item) => CHECK_TO_DO[item]).join(", ")}.`,
    stop: false,
  };
}
