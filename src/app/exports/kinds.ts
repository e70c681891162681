/** What a visit can be handed over as, in the order in which it is offered. */
export const EXPORT_KINDS = ["bundle", "workbook", "table", "columns", "follow-ups"] as const;
export type ExportKind = (typeof EXPORT_KINDS)[number];

/** How a kind is offered, and what its file is called and is. */
export interface KindAbout {
  readonly name: string;
  readonly what: string;
  /** What stands in the file's name; see `fileNameOf`. */
  readonly word: string;
  readonly ending: string;
  /** Media type, with its parameters. */
  readonly type: string;
}

export const ABOUT: Readonly<Record<ExportKind, KindAbout>> = {
  bundle: {
    name: "Visit bundle",
    what: "For the office: all of it, exactly as it was logged.",
    word: "visit",
    ending: "json",
    type: "application/json",
  },
  workbook: {
    name: "Workbook",
    what: "For a spreadsheet: readings, turns, notes and follow-ups, a sheet each.",
    word: "visit",
    ending: "xlsx",
    type: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  },
  table: {
    name: "Table (CSV)",
    what: "For other programs: one row a reading.",
    word: "readings",
    ending: "csv",
    type: "text/csv;charset=utf-8",
  },
  columns: {
    name: "Columns of the table",
    what: "For other programs: what each column of the table is, and its unit.",
    word: "readings",
    ending: "csv-metadata.json",
    type: "application/csvm+json",
  },
  "follow-ups": {
    name: "Follow-ups (calendar)",
    what: "For a calendar: what the notes say is still to be done.",
    word: "follow-ups",
    ending: "ics",
    type: "text/calendar;charset=utf-8",
  },
};
