import type { Item } from "../meaning/item.ts";
import { capital } from "../measure/capital.ts";
import type { Condition, Firing } from "../measure/firing.ts";
import { type QuantityId, quantityOf } from "../measure/quantity.ts";
import { openQuestion } from "../visit/questions.ts";
import type { VisitState } from "../visit/state.ts";

/** The reading that is given one figure at a time. */
export interface ByFigures {
  readonly quantity: QuantityId;
  readonly firing: Firing | null;
  readonly condition: Condition | null;
}

/** The reading that the open question is about; null where none is open, or it is about something else. */
export function byFiguresOf(state: VisitState): ByFigures | null {
  const asked = openQuestion(state)?.unsure;
  if (!asked) return null;
  const { question, candidates } = asked;
  if (question) return question.asks === "value" ? pick(question) : null;
  const [candidate] = candidates;
  return candidate ? ofItem(candidate) : null;
}

/** "Low fire CO2": how it is named aloud and on the screen. */
export function namedByFigures({ quantity, firing, condition }: ByFigures): string {
  const before = [firing && `${firing} fire`, condition].filter((word) => word !== null);
  const { name } = quantityOf(quantity);
  // "CO2", "CO" and "O2" keep their capitals.
  const after = before.length === 0 || /^[A-Z]{2}|\d/.test(name) ? name : name.toLowerCase();
  return capital([...before, after].join(" "));
}

/** What is said to "figure by figure". */
export function byFiguresSaid(state: VisitState): string {
  const asked = byFiguresOf(state);
  return asked ? `${namedByFigures(asked)}, figure by figure.` : NAME_IT;
}

const NAME_IT = "Name the reading first, then say: figure by figure.";

function ofItem(item: Item): ByFigures | null {
  if (item.kind === "reading") return pick(item);
  if (item.kind !== "replace" || item.quantity === undefined) return null;
  return { quantity: item.quantity, firing: null, condition: null };
}

function pick({ quantity, firing, condition }: ByFigures): ByFigures {
  return { quantity, firing, condition };
}
