import { foldVisit } from "../../visit/fold.ts";
import type { Visit } from "../../visit/visit.ts";
import { type OfficeRow, OUTCOMES, officeRow } from "../office/row.ts";
import { openFollowUpsOf } from "./calendar.ts";
import { IDENTITY } from "./identity.ts";
import { utcTime } from "./local-time.ts";
import { type Column, table } from "./table.ts";

interface VisitRow {
  readonly visit: Visit;
  readonly row: OfficeRow;
  readonly followUps: number;
}

const FIGURES = (["found", "left"] as const).flatMap((when) =>
  (["high", "low"] as const).flatMap((firing) =>
    (["co2", "co"] as const).map((quantity): Column<VisitRow> => {
      const name = quantity.toUpperCase();
      return {
        name: `${when}_${firing}_${quantity}`,
        title: `${name}, ${firing} fire, as ${when}, ${quantity === "co2" ? "%" : "ppm"}`,
        description: `${name} of ${firing} fire as the boiler was ${when}, as its record has it; empty where it was not read.`,
        datatype: "double",
        unit: quantity === "co2" ? "%" : "[ppm]",
        of: ({ row }) => row[when][firing][quantity]?.value ?? null,
      };
    }),
  ),
);

const ABOUT: readonly Column<VisitRow>[] = [
  {
    name: "ended",
    title: "Last entry (UTC)",
    description: "When the last entry was made, ISO 8601 in UTC.",
    datatype: "dateTime",
    required: true,
    of: ({ row }) => utcTime(row.endedAt),
  },
  {
    name: "technician",
    title: "Technician",
    description: "Who did the work, as typed in.",
    datatype: "string",
    of: ({ row }) => row.technician || null,
  },
  {
    name: "licence",
    title: "Licence or registration number",
    description: "Number of the technician's licence or registration, as typed in.",
    datatype: "string",
    of: ({ row }) => row.licence || null,
  },
  {
    name: "firm",
    title: "Firm",
    description: "The firm that the technician works for, as typed in.",
    datatype: "string",
    of: ({ row }) => row.firm || null,
  },
  {
    name: "instrument",
    title: "Instrument",
    description: "The analyser, as typed in.",
    datatype: "string",
    of: ({ visit }) => foldVisit(visit).details.instrument?.name || null,
  },
  {
    name: "instrument_serial",
    title: "Instrument's serial number",
    description: "Serial number of the analyser, as typed in.",
    datatype: "string",
    of: ({ visit }) => foldVisit(visit).details.instrument?.serial || null,
  },
  {
    name: "calibrated_on",
    title: "Calibrated on",
    description: "Day of the analyser's last calibration, as typed in.",
    datatype: "date",
    of: ({ row }) => row.calibratedOn,
  },
  {
    name: "sheet_title",
    title: "Limits sheet's title",
    description: "Title of the maker's limits sheet that was judged by.",
    datatype: "string",
    of: ({ row }) => row.sheet,
  },
  {
    name: "sheet_source",
    title: "Limits' source",
    description: "The document that the limits were typed in from, with its edition and page.",
    datatype: "string",
    of: ({ visit }) => sourceOf(visit),
  },
  {
    name: "entries",
    title: "Entries",
    description: "Entries in the visit's log.",
    datatype: "integer",
    unit: "1",
    required: true,
    of: ({ row }) => row.entries,
  },
  {
    name: "finished",
    title: "Finished",
    description: "Whether it was declared finished, and nothing was done at the boiler since.",
    datatype: "boolean",
    required: true,
    of: ({ row }) => row.finished,
  },
  {
    name: "outcome",
    title: "Outcome",
    description:
      "Judged anew: all that the sheet asks for proved, a reading left out of its limits, something not proved, or no limits to judge by.",
    datatype: "string",
    oneOf: OUTCOMES,
    required: true,
    of: ({ row }) => row.outcome,
  },
  {
    name: "open",
    title: "Open things",
    description:
      "As the record counts them: dangers that stand, what was not understood and not settled, not proved, not closed.",
    datatype: "integer",
    unit: "1",
    required: true,
    of: ({ row }) => row.open,
  },
  {
    name: "warnings",
    title: "Dangers that stand at the end",
    description:
      "Codes of the dangers that stand at the end, with blanks between; empty where there is none. What was warned of before and is over is in the record only.",
    datatype: "string",
    of: ({ row }) => row.warnings.join(" ") || null,
  },
  ...FIGURES,
  {
    name: "follow_ups",
    title: "Follow-ups open",
    description: "What its notes leave to be done, and nobody has marked as done.",
    datatype: "integer",
    unit: "1",
    required: true,
    of: ({ followUps }) => followUps,
  },
  {
    name: "reviewed_by",
    title: "Reviewed by",
    description: "Who found the visit right as it stands, as typed in; empty where nobody has.",
    datatype: "string",
    of: ({ row }) => row.reviewedBy,
  },
];

function sourceOf({ head }: Visit): string | null {
  if (!head.sheet) return null;
  const { document, edition, page } = head.sheet.source;
  return [document, edition && `edition ${edition}`, page && `page ${page}`].filter(Boolean).join(", ");
}

/** One row a visit. */
export const VISITS = table<VisitRow>({
  name: "visits",
  title: "Visits",
  description: "One row a visit: one stretch of work at one appliance, judged as of its last entry.",
  key: ["visit_id"],
  columns: [...IDENTITY, ...ABOUT],
  rowsOf: (visit, done) => [
    { visit, row: officeRow(visit), followUps: openFollowUpsOf([visit], done).length },
  ],
});
