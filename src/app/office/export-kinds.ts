/** What can be handed over of the visits that are shown. */
export type ExportKind = "bundles";

export interface ExportOffer {
  readonly kind: ExportKind;
  readonly name: string;
  /** The file's name, on a day (YYYY-MM-DD). */
  readonly file: (today: string) => string;
}

export const EXPORTS: readonly ExportOffer[] = [
  { kind: "bundles", name: "Bundles (JSON Lines)", file: (today) => `burnerside-visits-${today}.jsonl` },
];
