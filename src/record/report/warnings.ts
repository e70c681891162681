import { WARNING_CODES } from "../../judge/judgement.ts";
import type { Raised, Warned } from "../../judge/raised.ts";
import { epochMs } from "../../measure/instant.ts";
import { shownText } from "../../measure/text.ts";
import type { LoggedItem, VisitState } from "../../visit/state.ts";
import { shownBody } from "../shown-body.ts";
import { clockTime } from "../wording.ts";
import { type Block, type Cell, cell } from "./parts.ts";
import { moreOf } from "./shortened.ts";

/** So many warnings are told; of more, the gravest. */
const MOST = 10;

/** Every warning that was given, when it was taken note of, and what was read or turned next. */
export function warningBlocks(state: VisitState, { raised }: Warned): Block[] {
  if (raised.length === 0) return [{ kind: "text", text: "None was raised." }];
  const grave = (each: Raised) => WARNING_CODES.indexOf(each.code);
  const shown = new Set([...raised].sort((a, b) => grave(a) - grave(b)).slice(0, MOST));
  const left = raised.length - shown.size;
  const deeds = state.items.filter(
    ({ struckBy, body }) => struckBy === null && (body.kind === "reading" || body.kind === "adjustment"),
  );
  const rows = raised.filter((each) => shown.has(each)).map((each) => rowOf(each, deeds, state.head.zone));
  return [
    { kind: "table", columns: ["Time", "Warning", "Acknowledged", "What followed"], rows },
    ...(left > 0 ? [{ kind: "text", text: moreOf(left) } as const] : []),
  ];
}

function rowOf(
  { at, text, acknowledgedAt }: Raised,
  deeds: readonly LoggedItem[],
  zone: string | null,
): Cell[] {
  const next = deeds.find((item) => epochMs(item.at) > epochMs(at));
  return [
    cell(clockTime(at, zone)),
    cell(shownText(text)),
    cell(acknowledgedAt === null ? "not acknowledged" : clockTime(acknowledgedAt, zone)),
    cell(next ? shownBody(next.body) : "nothing was read or turned", next ? clockTime(next.at, zone) : ""),
  ];
}
