import type { Outcome as OutcomeOf } from "../../../record/office/row.ts";
import { OUTCOME_WORDS } from "../../office/words.ts";

const PATHS: Readonly<Record<OutcomeOf, string>> = {
  proved: "M4 13 L10 19 L20 5",
  "out-of-limits": "M5 5 L19 19 M19 5 L5 19",
  "not-proved": "M12 4 A8 8 0 1 1 11.9 4 Z",
  "not-judged": "M4 12 H20",
};

/** How a visit was left: a mark, and the word. */
export function Outcome({ of }: { readonly of: OutcomeOf }) {
  return (
    <span class={`outcome outcome-${of}`}>
      <svg class="mark" viewBox="0 0 24 24" aria-hidden="true">
        <path d={PATHS[of]} />
      </svg>{" "}
      {OUTCOME_WORDS[of]}
    </span>
  );
}
