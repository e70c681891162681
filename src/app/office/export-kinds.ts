/** What can be handed over of the visits that are shown. */
export type ExportKind = "readings" | "notes" | "workbook" | "calendar" | "bundles";

export interface ExportOffer {
  readonly kind: ExportKind;
  readonly name: string;
  /** The file's name, on a day (YYYY-MM-DD). */
  readonly file: (today: string) => string;
}

export const EXPORTS: readonly ExportOffer[] = [
  { kind: "readings", name: "Readings (CSV)", file: (today) => `burnerside-readings-${today}.csv` },
  {
    kind: "notes",
    name: "Notes and follow-ups (CSV)",
    file: (today) => `burnerside-notes-${today}.csv`,
  },
  { kind: "workbook", name: "Workbook (XLSX)", file: (today) => `burnerside-visits-${today}.xlsx` },
  {
    kind: "calendar",
    name: "Open follow-ups (calendar)",
    file: (today) => `burnerside-follow-ups-${today}.ics`,
  },
  { kind: "bundles", name: "Bundles (JSON Lines)", file: (today) => `burnerside-visits-${today}.jsonl` },
];
