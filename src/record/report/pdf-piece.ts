/** A run of text, or a piece of a page: the few kinds of a PDF document's content that a record is made of. Plain data. */
export type Piece =
  | ({ readonly text: string | readonly Piece[] } & Look)
  | ({ readonly stack: readonly Piece[]; readonly unbreakable?: boolean } & Look)
  | ({ readonly columns: readonly Piece[]; readonly columnGap: number } & Look)
  | ({
      readonly table: {
        readonly widths: readonly (number | "*" | "auto")[];
        readonly headerRows?: number;
        readonly dontBreakRows?: boolean;
        readonly keepWithHeaderRows?: number;
        readonly body: readonly (readonly Piece[])[];
      };
      readonly layout: TableLook;
    } & Look)
  | ({ readonly svg: string; readonly width: number } & Look)
  | ({ readonly canvas: readonly Line[] } & Look);

/**
 * How a table is ruled: a heading with a rule under it, or rows with thin rules, the names of the columns or the section's
 * heading and those above them, or a box. The adapter knows how each is drawn.
 */
export type TableLook = "heading" | "ruled" | "signatures" | "notice";

/** How a piece looks; what is left out is as around it. */
export interface Look {
  readonly bold?: boolean;
  readonly italics?: boolean;
  readonly fontSize?: number;
  readonly characterSpacing?: number;
  readonly wordBreak?: "break-all";
  readonly alignment?: "left" | "center" | "right";
  readonly margin?: readonly [left: number, top: number, right: number, bottom: number];
  /** Of a table's cell: it takes so many columns. Those that it covers are empty texts. */
  readonly colSpan?: number;
}

/** A line of the frame, in points. */
export type Line = { readonly lineWidth: number } & (
  | { readonly type: "rect"; readonly x: number; readonly y: number; readonly w: number; readonly h: number }
  | {
      readonly type: "ellipse";
      readonly x: number;
      readonly y: number;
      readonly r1: number;
      readonly r2: number;
    }
  | {
      readonly type: "line";
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
    }
);

/** The family that all of it is set in, in the styles normal, bold and italic. */
export const FAMILY = "Serif";
