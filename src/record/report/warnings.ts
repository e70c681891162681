import { WARNING_CODES } from "../../judge/judgement.ts";
import type { Raised, Warned } from "../../judge/raised.ts";
import { epochMs } from "../../measure/instant.ts";
import type { QuantityId } from "../../measure/quantity.ts";
import { shownText } from "../../measure/text.ts";
import type { ItemBody, LoggedItem, VisitState } from "../../visit/state.ts";
import { shownBody } from "../shown-body.ts";
import { clockTime } from "../wording.ts";
import { type Block, type Cell, cell } from "./parts.ts";
import { moreOf } from "./shortened.ts";

/** So many warnings are told; of more, the gravest. */
const MOST = 60;

/** Every warning that was given, when it was taken note of, and what was read or turned next. */
export function warningBlocks(state: VisitState, { raised }: Warned): Block[] {
  if (raised.length === 0) return [{ kind: "text", text: "None was raised." }];
  const grave = (each: Raised) => WARNING_CODES.indexOf(each.code);
  const shown = new Set([...raised].sort((a, b) => grave(a) - grave(b)).slice(0, MOST));
  const left = raised.length - shown.size;
  const deeds = state.items.filter(({ struckBy, body }) => struckBy === null && isDeed(body));
  const rows = raised.filter((each) => shown.has(each)).map((each) => rowOf(each, deeds, state.head.zone));
  return [
    { kind: "table", columns: ["Time", "Warning", "Acknowledged", "What followed"], rows },
    ...(left > 0 ? [{ kind: "text", text: moreOf(left) } as const] : []),
  ];
}

/** Something that was done: read, turned, or a check made. */
function isDeed(body: ItemBody): boolean {
  return body.kind === "reading" || body.kind === "adjustment" || (body.kind === "check" && body.done);
}

/** What a warning is about: its next reading is what was done about it. */
const ABOUT: Readonly<Partial<Record<Raised["code"], QuantityId>>> = {
  "co-alarm": "co-ambient",
  "ambient-co-evacuate": "co-ambient",
  "ambient-co-high": "co-ambient",
  "ambient-co-raised": "co-ambient",
  "flue-co-air-free-over-400": "co",
  "flue-co-over-limit": "co",
  "co-over-guidance": "co",
  "gas-pressure-out": "gas-pressure-inlet",
  "gas-pressure-not-read": "gas-pressure-inlet",
};

function rowOf(
  { at, code, text, acknowledgedAt }: Raised,
  deeds: readonly LoggedItem[],
  zone: string | null,
): Cell[] {
  const later = deeds.filter((item) => epochMs(item.at) > epochMs(at));
  const next = nextOf(code, at, deeds, later);
  return [
    cell(clockTime(at, zone)),
    cell(shownText(text)),
    cell(acknowledgedAt === null ? "not acknowledged" : clockTime(acknowledgedAt, zone)),
    cell(
      next
        ? shownBody(next.body)
        : code === "read-too-early"
          ? "not read again"
          : "nothing was read, turned or checked",
      next ? clockTime(next.at, zone) : "",
    ),
  ];
}

/** What was done about a warning; else what was done next. What was read too early is told only when it was read again. */
function nextOf(
  code: Raised["code"],
  at: string,
  deeds: readonly LoggedItem[],
  later: readonly LoggedItem[],
): LoggedItem | undefined {
  switch (code) {
    case "gas-smell":
      return later.find(({ body }) => body.kind === "check" && body.item === "leak-check") ?? later[0];
    case "read-too-early": {
      const early = deeds.flatMap((item) =>
        item.at === at && item.body.kind === "reading" ? [item.body] : [],
      );
      return later.find(
        ({ body }) =>
          body.kind === "reading" &&
          early.some(({ quantity, firing }) => quantity === body.quantity && firing === body.firing),
      );
    }
    default:
      return later.find(({ body }) => body.kind === "reading" && body.quantity === ABOUT[code]) ?? later[0];
  }
}
