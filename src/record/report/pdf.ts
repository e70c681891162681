import { NO_SIGN } from "../../measure/harmless.ts";
import type { Covers } from "./coverage.ts";
import type { Report } from "./parts.ts";
import { frame } from "./pdf-frame.ts";
import { FAMILY, type Piece } from "./pdf-piece.ts";
import { Setting, SIZE, SMALL } from "./pdf-setting.ts";

/** A record as a PDF document: plain data, that an adapter adds the page numbers to. Sizes in points. */
export interface RecordPdf {
  readonly title: string;
  readonly subject: string;
  readonly creator: string;
  readonly pageSize: "A4" | "LETTER";
  readonly margins: readonly [left: number, top: number, right: number, bottom: number];
  readonly font: typeof FAMILY;
  readonly fontSize: number;
  readonly content: readonly Piece[];
  /** The double rule round every page. */
  readonly frame: Piece;
  /** What stands at the foot of every page, beside its number. */
  readonly foot: readonly string[];
  readonly footSize: number;
}

const PAGES = { A4: { width: 595.28, height: 841.89 }, LETTER: { width: 612, height: 792 } } as const;
const MARGIN = 36;

/** The PDF document of a record. `covers`: the code points that all styles of the family have glyphs for. */
export function recordPdf(report: Report, covers: Covers): RecordPdf {
  const pageSize = report.units === "us" ? "LETTER" : "A4";
  const { width, height } = PAGES[pageSize];
  const set = new Setting(width - 2 * MARGIN, covers);
  const content = [...set.head(report), ...set.sections(report)];
  const foot = report.foot.map((line) => set.text(line));
  if (set.lacking)
    foot.push(`${NO_SIGN} stands for a sign that the fonts of this file lack; the exported visit has it.`);
  return {
    title: set.text(`${report.heading}: ${report.name}`),
    subject: set.text(report.stand),
    creator: set.text(report.program),
    pageSize,
    margins: [MARGIN, MARGIN + 4, MARGIN, MARGIN + 16],
    font: FAMILY,
    fontSize: SIZE,
    content,
    frame: { canvas: frame(width, height) },
    foot,
    footSize: SMALL,
  };
}
