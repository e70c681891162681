import { Fuel } from "../../measure/firing.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { Visit } from "../../visit/visit.ts";
import { utcTime } from "./local-time.ts";
import type { Column } from "./table.ts";

/** What every table has, ids last: which visit, at which appliance, where and when. */
export const IDENTITY: readonly Column<{ readonly visit: Visit }>[] = [
  {
    name: "visit_id",
    title: "Visit",
    description: "Id of the visit, the same in every export of it.",
    datatype: "string",
    required: true,
    of: ({ visit }) => visit.head.id,
  },
  {
    name: "visit_title",
    title: "Title",
    description: "What the visit was called; where it was not, its limits sheet's title.",
    datatype: "string",
    of: ({ visit }) => visit.head.title || visit.head.sheet?.title || null,
  },
  {
    name: "appliance",
    title: "Appliance",
    description: "Serial or plant number of the appliance, as typed in.",
    datatype: "string",
    of: ({ visit }) => foldVisit(visit).details.appliance.trim() || null,
  },
  {
    name: "place",
    title: "Place",
    description: "Where the appliance is, as typed in.",
    datatype: "string",
    of: ({ visit }) => foldVisit(visit).details.place || null,
  },
  {
    name: "started",
    title: "Visit started (UTC)",
    description: "When the visit was started, ISO 8601 in UTC.",
    datatype: "dateTime",
    required: true,
    of: ({ visit }) => utcTime(visit.head.startedAt),
  },
  {
    name: "zone",
    title: "Time zone",
    description: "IANA time zone of the place; empty where it was not known.",
    datatype: "string",
    of: ({ visit }) => visit.head.zone,
  },
  {
    name: "fuel",
    title: "Gas",
    description: "The gas that the appliance burned.",
    datatype: "string",
    oneOf: Fuel.options,
    required: true,
    of: ({ visit }) => visit.head.fuel,
  },
  {
    name: "sheet_id",
    title: "Limits sheet",
    description: "Id of the maker's limits sheet that was judged by; empty where there was none.",
    datatype: "string",
    of: ({ visit }) => visit.head.sheet?.id ?? null,
  },
];
