import { BEFORE_CHECKS, type Check, CLOSING_CHECKS } from "../../measure/firing.ts";
import type { VisitState } from "../../visit/state.ts";
import { CHECK_NAMES, clockTime } from "../wording.ts";
import { type Block, type Fact, fact } from "./parts.ts";

/** All that the sheet wants before leaving and what else was said of that; then what was confirmed before the test. */
export function closingBlocks(state: VisitState): Block[] {
  const wanted: readonly Check[] = state.head.sheet?.closing ?? CLOSING_CHECKS;
  const isSaid = (check: Check) => last(state, check) !== null;
  const besides = CLOSING_CHECKS.filter((check) => !wanted.includes(check) && isSaid(check));
  const before = BEFORE_CHECKS.filter((check) => !wanted.includes(check) && isSaid(check));
  const closing = [
    ...wanted.map((check) => factOf(state, check, "OPEN: ", "")),
    ...besides.map((check) => factOf(state, check, "", "not asked for by the sheet")),
  ];
  return [
    closing.length > 0
      ? { kind: "facts", name: "", rows: closing }
      : { kind: "text", text: "The sheet asks for none." },
    ...(before.length > 0
      ? [
          {
            kind: "facts",
            name: "Confirmed before the test",
            rows: before.map((check) => factOf(state, check, "", "")),
          } as const,
        ]
      : []),
  ];
}

function factOf(state: VisitState, check: Check, open: string, note: string): Fact {
  const said = last(state, check);
  const name = CHECK_NAMES[check];
  if (!said) return fact(name, `${open}not said`, note);
  const time = clockTime(said.at, state.head.zone);
  if (state.checks[check] === true) return fact(name, `done ${time}`, note);
  return said.done
    ? fact(name, `${open}done ${time}, opened again since`, note)
    : fact(name, `${open}said not to be, ${time}`, note);
}

/** The last word on a check that stands. */
function last(state: VisitState, check: Check): { readonly at: string; readonly done: boolean } | null {
  const item = state.items.findLast(
    ({ struckBy, body }) => struckBy === null && body.kind === "check" && body.item === check,
  );
  return item?.body.kind === "check" ? { at: item.at, done: item.body.done } : null;
}
