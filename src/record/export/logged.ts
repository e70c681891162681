import { Engine } from "../../meaning/heard.ts";
import type { ItemBody } from "../../visit/entry.ts";
import { localTime, utcTime } from "./local-time.ts";
import type { Column } from "./table.ts";
import { STATUSES, type Version } from "./versions.ts";

/** What every logged thing has: which entry, when, and whether it stands. */
export const LOGGED: readonly Column<Version<ItemBody>>[] = [
  {
    name: "entry_id",
    title: "Entry",
    description: "Id of the entry that logged this; of a mended thing that of the entry that mended it.",
    datatype: "string",
    required: true,
    of: ({ entry }) => entry.id,
  },
  {
    name: "item_id",
    title: "First entry",
    description:
      "Id of the entry that logged it first: the same for a thing and all that was put in its place.",
    datatype: "string",
    required: true,
    of: ({ item }) => item.id,
  },
  {
    name: "seq",
    title: "Place in log",
    description: "Place of the entry in the visit's log, from 0.",
    datatype: "integer",
    required: true,
    of: ({ entry }) => entry.seq,
  },
  {
    name: "time",
    title: "Time (UTC)",
    description:
      "When it was measured or done, ISO 8601 in UTC; a later correction mends the thing, not its time.",
    datatype: "dateTime",
    required: true,
    of: ({ item }) => utcTime(item.at),
  },
  {
    name: "time_local",
    title: "Time at the place",
    description: "The same, ISO 8601 with the offset at the place; empty where the zone was not known.",
    datatype: "dateTime",
    of: ({ item, visit }) => localTime(item.at, visit.head.zone),
  },
  {
    name: "logged",
    title: "Logged (UTC)",
    description: "When this entry was made, ISO 8601 in UTC: later than the time where it mends something.",
    datatype: "dateTime",
    required: true,
    of: ({ entry }) => utcTime(entry.at),
  },
  {
    name: "status",
    title: "Status",
    description: "Whether it stands at the end of the visit, was struck, or was replaced by a later entry.",
    datatype: "string",
    oneOf: STATUSES,
    required: true,
    of: ({ status }) => status,
  },
];

/** What it came from. */
export const SOURCE: readonly Column<Version<ItemBody>>[] = [
  {
    name: "said",
    title: "Words",
    description: "The words that it came from.",
    datatype: "string",
    of: ({ entry }) => entry.said,
  },
  {
    name: "phrase",
    title: "Whole phrase",
    description: "The whole phrase as heard or typed.",
    datatype: "string",
    of: ({ entry }) => entry.phrase,
  },
  {
    name: "engine",
    title: "Heard by",
    description:
      "Whether it was typed, heard by the platform's or the device's own recogniser, or as key words on the device.",
    datatype: "string",
    oneOf: Engine.options,
    required: true,
    of: ({ entry }) => entry.engine,
  },
  {
    name: "confidence",
    title: "Confidence",
    description: "How sure it is that this was said and meant, 0 to 1.",
    datatype: "double",
    unit: "1",
    required: true,
    of: ({ entry }) => entry.confidence,
  },
];
