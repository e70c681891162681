import type { Verdict } from "../../judge/judgement.ts";
import { situationOf } from "../../judge/situation.ts";
import { verdictOf } from "../../judge/verdict.ts";
import { Condition, Dial, Firing } from "../../measure/firing.ts";
import { QUANTITY_IDS, quantityOf } from "../../measure/quantity.ts";
import { convert, shownUnit, UNITS } from "../../measure/unit.ts";
import { Origin, type Reading } from "../../visit/entry.ts";
import { foldVisit } from "../../visit/fold.ts";
import { phasesOf } from "../../visit/phase.ts";
import type { Visit } from "../../visit/visit.ts";
import { endedAt } from "../office/revision.ts";
import { IDENTITY } from "./identity.ts";
import { LOGGED, SOURCE } from "./logged.ts";
import { type Column, table } from "./table.ts";
import { type Version, versionsOf } from "./versions.ts";

/** A reading with what the visit as a whole says of it; null where it does not stand. */
interface ReadingRow extends Version<Reading> {
  readonly verdict: Verdict | null;
  readonly phase: { readonly asFound: boolean; readonly asLeft: boolean } | null;
}

function* rowsOf(visit: Visit): Iterable<ReadingRow> {
  const state = foldVisit(visit);
  const s = situationOf(state, [], endedAt(visit));
  const verdicts = new Map(state.readings.map((r) => [r.id, verdictOf(s, r)]));
  const phases = phasesOf(state);
  const found = new Set(phases.flatMap(({ asFound }) => asFound?.id ?? []));
  const left = new Set(phases.flatMap(({ asLeft }) => asLeft?.id ?? []));
  for (const version of versionsOf(visit, "reading")) {
    const { id } = version.item;
    const stands = version.status === "standing";
    yield {
      ...version,
      verdict: stands ? (verdicts.get(id) ?? null) : null,
      phase: stands ? { asFound: found.has(id), asLeft: left.has(id) } : null,
    };
  }
}

/** Digits kept of a converted value: more than any instrument shows, fewer than binary fractions make noise of. */
const FIGURES = 12;

/** The value in the first unit of its quantity, so that readings of many visits can be compared. */
function baseValue({ quantity, value, unit }: Reading): number {
  const [base] = quantityOf(quantity).units;
  return unit === base ? value : Number(convert(value, unit, base).toPrecision(FIGURES));
}

const origin = (field: keyof Reading["origin"]): Column<ReadingRow> => ({
  name: `${field}_from`,
  title: `Where the ${field} is from`,
  description: `Whether the ${field} was said, or assumed from what was known.`,
  datatype: "string",
  oneOf: Origin.options,
  required: true,
  of: ({ body }) => body.origin[field],
});

const MEASURED: readonly Column<ReadingRow>[] = [
  {
    name: "as_found",
    title: "As found",
    description:
      "Whether it is what was found: of what a screw can move the last one before a screw was turned, of all else the first. Neither as found nor as left: a trial, or one before it. Empty where the reading does not stand.",
    datatype: "boolean",
    of: ({ phase }) => phase?.asFound ?? null,
  },
  {
    name: "as_left",
    title: "As left",
    description: "Whether it is what stands at the end of the work. Empty where the reading does not stand.",
    datatype: "boolean",
    of: ({ phase }) => phase?.asLeft ?? null,
  },
  {
    name: "quantity",
    title: "Quantity",
    description: "What was measured.",
    datatype: "string",
    oneOf: QUANTITY_IDS,
    required: true,
    of: ({ body }) => body.quantity,
  },
  {
    name: "quantity_name",
    title: "Quantity as shown",
    description: "The same by its name in the record.",
    datatype: "string",
    required: true,
    of: ({ body }) => quantityOf(body.quantity).name,
  },
  {
    name: "value",
    title: "Value",
    description: "The value as it was said, in the unit of the next column.",
    datatype: "double",
    required: true,
    of: ({ body }) => body.value,
  },
  {
    name: "unit",
    title: "Unit",
    description: "UCUM code of the unit that the value and its limits are in.",
    datatype: "string",
    oneOf: UNITS,
    required: true,
    of: ({ body }) => body.unit,
  },
  {
    name: "unit_name",
    title: "Unit as shown",
    description: "The same by its sign in the record.",
    datatype: "string",
    required: true,
    of: ({ body }) => shownUnit(body.unit),
  },
  {
    name: "base_value",
    title: "Value to compare",
    description: `The value in the one unit that every reading of its quantity has in the next column, to ${FIGURES} figures.`,
    datatype: "double",
    required: true,
    of: ({ body }) => baseValue(body),
  },
  {
    name: "base_unit",
    title: "Unit to compare",
    description: "UCUM code of that unit.",
    datatype: "string",
    oneOf: UNITS,
    required: true,
    of: ({ body }) => quantityOf(body.quantity).units[0],
  },
  {
    name: "firing",
    title: "Firing",
    description: "The burner's forced firing rate; empty where the quantity has none or it was not known.",
    datatype: "string",
    oneOf: Firing.options,
    of: ({ body }) => body.firing,
  },
  {
    name: "condition",
    title: "Condition",
    description: "Whether the gas pressure was taken with the burner off (static) or running (dynamic).",
    datatype: "string",
    oneOf: Condition.options,
    of: ({ body }) => body.condition,
  },
  {
    name: "dial_value",
    title: "Dial",
    description: "Volume of one revolution of the gas meter's test dial, in the unit of the next column.",
    datatype: "double",
    of: ({ body }) => body.dial?.value ?? null,
  },
  {
    name: "dial_unit",
    title: "Dial unit",
    description: "UCUM code of the dial's unit.",
    datatype: "string",
    oneOf: Dial.shape.unit.options,
    of: ({ body }) => body.dial?.unit ?? null,
  },
  origin("value"),
  origin("unit"),
  origin("firing"),
  origin("condition"),
];

const JUDGED: readonly Column<ReadingRow>[] = [
  {
    name: "verdict",
    title: "Verdict",
    description:
      "Judged by the visit's own limits sheet as the visit stands at its end: inside the limits, outside, read before the settle time was over, or no limit known. Empty where the reading does not stand.",
    datatype: "string",
    oneOf: ["pass", "fail", "wait", "no-limit"],
    of: ({ verdict }) => verdict?.verdict ?? null,
  },
  {
    name: "limit_min",
    title: "Limit from",
    description: "Lower limit, in the unit of the value, itself inside; empty where none is known.",
    datatype: "double",
    of: ({ verdict }) => verdict?.limit?.min ?? null,
  },
  {
    name: "limit_max",
    title: "Limit up to",
    description: "Upper limit, in the unit of the value, itself inside; empty where none is known.",
    datatype: "double",
    of: ({ verdict }) => verdict?.limit?.max ?? null,
  },
];

/** One row a reading: all that were ever logged, those that were struck or replaced since too. */
export const READINGS = table<ReadingRow>({
  name: "readings",
  title: "Readings",
  description: "One row a reading: all that were ever logged, those that were struck or replaced since too.",
  key: ["visit_id", "entry_id"],
  columns: [...IDENTITY, ...LOGGED, ...MEASURED, ...SOURCE, ...JUDGED],
  rowsOf,
});
