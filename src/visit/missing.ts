import type { Item, Unsure } from "../meaning/item.ts";
import { mendTarget } from "./correct.ts";
import type { VisitState } from "./state.ts";

type Question = NonNullable<Unsure["question"]>;

/** What a phrase that says only a number, a name or a way would answer, where this was asked; null where it would nothing. */
export function missingIn({ candidates, question }: Unsure, state: VisitState): Question | null {
  if (question) return question;
  const [asked] = candidates;
  if (asked?.kind === "replace") return valueMended(asked, state);
  if (asked?.kind !== "reading") return null;
  const { quantity, firing, condition } = asked;
  const others = candidates.flatMap((other) =>
    other.kind === "reading" && other.quantity !== quantity ? [other.quantity] : [],
  );
  return { asks: "value", quantity, firing, condition, others };
}

function valueMended(asked: Extract<Item, { kind: "replace" }>, state: VisitState): Question | null {
  const old = mendTarget(asked, state)?.reading;
  return old ? { asks: "value", quantity: old.quantity, firing: old.firing, condition: old.condition } : null;
}
