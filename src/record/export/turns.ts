import { Firing } from "../../measure/firing.ts";
import { type Adjustment, Origin } from "../../visit/entry.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { Visit } from "../../visit/visit.ts";
import { IDENTITY } from "./identity.ts";
import { LOGGED, SOURCE } from "./logged.ts";
import { type Column, table } from "./table.ts";
import { type Version, versionsOf } from "./versions.ts";

interface TurnRow extends Version<Adjustment> {
  readonly firing: Firing | null;
}

function* rowsOf(visit: Visit): Iterable<TurnRow> {
  const firings = new Map(foldVisit(visit).adjustments.map(({ id, firing }) => [id, firing]));
  for (const version of versionsOf(visit, "adjustment")) {
    const firing = version.status === "standing" ? (firings.get(version.item.id) ?? null) : null;
    yield { ...version, firing };
  }
}

const TURNED: readonly Column<TurnRow>[] = [
  {
    name: "screw",
    title: "Screw",
    description: "Which adjuster of the gas valve was turned: the high-fire or the low-fire screw.",
    datatype: "string",
    oneOf: Firing.options,
    required: true,
    of: ({ body }) => body.adjuster,
  },
  {
    name: "turns",
    title: "Turns",
    description: "How far, in full turns, clockwise positive.",
    datatype: "double",
    unit: "{turn}",
    required: true,
    of: ({ body }) => body.turns,
  },
  {
    name: "firing",
    title: "Firing then",
    description:
      "The burner's firing rate when it was turned; empty where it was not known or the turn does not stand.",
    datatype: "string",
    oneOf: Firing.options,
    of: ({ firing }) => firing,
  },
  {
    name: "screw_from",
    title: "Where the screw is from",
    description: "Whether the screw was said, or assumed from the firing.",
    datatype: "string",
    oneOf: Origin.options,
    required: true,
    of: ({ body }) => body.origin.adjuster,
  },
];

/** One row a turn of a screw: all that were ever logged, those that were struck or replaced since too. */
export const TURNS = table<TurnRow>({
  name: "turns",
  title: "Turns",
  description:
    "One row a turn of a screw: all that were ever logged, those that were struck or replaced since too.",
  key: ["visit_id", "entry_id"],
  columns: [...IDENTITY, ...LOGGED, ...TURNED, ...SOURCE],
  rowsOf,
});
