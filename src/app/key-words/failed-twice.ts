import { byFiguresOf } from "../../answer/by-figures.ts";
import { quantitiesOf } from "../../visit/questions.ts";
import type { VisitState } from "../../visit/state.ts";
import { utterancesOf } from "../../visit/utterances.ts";
import type { Visit } from "../../visit/visit.ts";

/**
 * Whether the number that is asked about was said twice, the last two things that were said, and not understood either time:
 * a phrase will not do. What is typed counts for none.
 */
export function failedTwice(visit: Visit, state: VisitState): boolean {
  const asked = byFiguresOf(state);
  if (!asked) return false;
  const last = utterancesOf(visit.entries).slice(-2);
  return (
    last.length === 2 &&
    last.every((together) =>
      together.every(
        ({ engine, body }) =>
          engine !== "typed" && body.kind === "unsure" && quantitiesOf(body.unsure).includes(asked.quantity),
      ),
    )
  );
}
