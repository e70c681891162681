import { byFiguresOf } from "../../answer/by-figures.ts";
import type { QuantityId } from "../../measure/quantity.ts";
import { openQuestion } from "../../visit/questions.ts";
import type { Session } from "../boiler/session.ts";
import type { Spelling } from "./spelling.ts";

/** The id of the question that is open; null where none is. A signal is read in it. */
export function questionOf(session: Session | null): string | null {
  return (session && openQuestion(session.state.value)?.id) ?? null;
}

/** The reading that is given figure by figure, or else asked about; null where neither is. */
export function quantityAsked(spelling: Spelling, session: Session | null): QuantityId | null {
  const asked = spelling.kind === "off" ? session && byFiguresOf(session.state.value) : spelling.asked;
  return asked?.quantity ?? null;
}
