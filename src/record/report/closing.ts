import { BEFORE_CHECKS, type Check, CLOSING_CHECKS } from "../../measure/firing.ts";
import type { VisitState } from "../../visit/state.ts";
import { CHECK_NAMES, clockTime } from "../wording.ts";
import { type Block, type Fact, fact } from "./parts.ts";

/** The checks in the order of work: those before the test where they were said, and all that the sheet wants before leaving. */
export function closingBlocks(state: VisitState): Block[] {
  const before = BEFORE_CHECKS.filter((check) => last(state, check) !== null);
  const closing = state.head.sheet?.closing ?? CLOSING_CHECKS;
  return [{ kind: "facts", rows: [...before, ...closing].map((check) => factOf(state, check)) }];
}

function factOf(state: VisitState, check: Check): Fact {
  const said = last(state, check);
  const name = CHECK_NAMES[check];
  if (!said) return fact(name, "OPEN: not said");
  const time = clockTime(said.at, state.head.zone);
  if (state.checks[check] === true) return fact(name, `done ${time}`);
  return said.done
    ? fact(name, `OPEN: done ${time}, opened again since`)
    : fact(name, `OPEN: said not to be, ${time}`);
}

/** The last word on a check that stands. */
function last(state: VisitState, check: Check): { readonly at: string; readonly done: boolean } | null {
  const item = state.items.findLast(
    ({ struckBy, body }) => struckBy === null && body.kind === "check" && body.item === check,
  );
  return item?.body.kind === "check" ? { at: item.at, done: item.body.done } : null;
}
