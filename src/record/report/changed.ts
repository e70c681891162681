import { harmless, shortText } from "../../measure/harmless.ts";
import { isoDay } from "../../measure/zone.ts";
import { type Details, NO_DETAILS } from "../../visit/details.ts";
import type { LoggedItem, VisitState } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";
import { shownBody } from "../shown-body.ts";
import { clockTime, dayTime, shownDay } from "../wording.ts";
import type { Block } from "./parts.ts";
import { shortened } from "./shortened.ts";

/** So many things are told of each kind. */
const MOST = 60;
const LETTERS = 120;

/** What was struck, what was mended and from what, and what of the details was changed: nothing is left out without a word. */
export function changedBlocks(visit: Visit, state: VisitState): Block[] {
  const time = (at: string) => timeSaid(at, visit.head);
  const struck = state.items
    .filter(({ struckBy }) => struckBy !== null)
    .map(({ at, body }) => `${time(at)} ${shortText(shownBody(body), LETTERS)}`);
  const mended = state.items
    .filter(({ struckBy, history }) => struckBy === null && history.length > 0)
    .map((item) => `${time(item.at)} ${mendSaid(item)}`);
  const changed = detailsChanged(visit).map(({ at, said }) => `${time(at)} ${said}`);
  const lists: (Block & { kind: "list" })[] = [
    { kind: "list", name: "Struck", items: told(struck) },
    { kind: "list", name: "Mended", items: told(mended) },
    { kind: "list", name: "Details", items: told(changed) },
  ];
  const filled = lists.filter(({ items }) => items.length > 0);
  return filled.length > 0 ? filled : [{ kind: "text", text: "Nothing was struck, mended or changed." }];
}

function told(all: readonly string[]): string[] {
  const { shown, more } = shortened(all, MOST);
  return [...shown, ...(more === "" ? [] : [more])];
}

/** With its day where that is not the visit's. */
function timeSaid(at: string, { startedAt, zone }: Visit["head"]): string {
  return isoDay(at, zone) === isoDay(startedAt, zone) ? clockTime(at, zone) : dayTime(at, zone);
}

function mendSaid({ history, body }: LoggedItem): string {
  const [was] = history;
  const before = was ? shortText(shownBody(was), LETTERS) : "";
  return `${before}, now ${shortText(shownBody(body), LETTERS)}`;
}

/** Each detail as it is told, in order; "" where it is not given. */
const DETAILS: readonly (readonly [name: string, of: (details: Details) => string])[] = [
  ["Appliance number", ({ appliance }) => harmless(appliance)],
  ["Place", ({ place }) => harmless(place)],
  ["Technician", ({ technician }) => harmless(technician)],
  ["Licence or registration number", ({ licence }) => harmless(licence)],
  ["Firm", ({ firm }) => harmless(firm)],
  ["Instrument", ({ instrument }) => harmless(instrument?.name ?? "")],
  ["Serial number", ({ instrument }) => harmless(instrument?.serial ?? "")],
  [
    "Calibrated on",
    ({ instrument }) => (instrument?.calibratedOn == null ? "" : shownDay(instrument.calibratedOn)),
  ],
];

/** What was given or changed since the visit began with its first details: "Calibrated on 30 Sept 2025, now 1 Mar 2027". */
function detailsChanged({ entries }: Visit): { readonly at: string; readonly said: string }[] {
  const first = entries[0];
  let was = first?.body.kind === "details" ? first.body.details : NO_DETAILS;
  return entries.slice(1).flatMap(({ at, body }) => {
    if (body.kind !== "details") return [];
    const [old, now] = [was, body.details];
    was = now;
    return DETAILS.flatMap(([name, of]) => {
      if (of(old) === of(now)) return [];
      return [{ at, said: `${name} ${of(old) || "not given"}, now ${of(now) || "not given"}` }];
    });
  });
}
