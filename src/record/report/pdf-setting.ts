import { NO_SIGN } from "../../measure/harmless.ts";
import { drawTrace, PAPER_PANEL, PAPER_WIDTH, TRACE_LEGEND } from "../trace-drawing.ts";
import { VERDICT_WORDS } from "../wording.ts";
import type { Covers } from "./coverage.ts";
import type { Block, Cell, Fact, Report, Section, SectionId } from "./parts.ts";
import { FAMILY, type Look, type Piece } from "./pdf-piece.ts";
import { printable } from "./printable.ts";
import { traceSvg } from "./trace-svg.ts";

/** Sizes of the letters, points. */
export const SIZE = 7.4;
export const SMALL = 6.4;
/** A word of so many letters may be wider than its column. */
const LONG = 24;
const LONG_WORD = new RegExp(`(\\S{${LONG},})`);

const GAP = 14;

/** The sections that stand side by side; the others have the whole width. */
const BESIDE: Readonly<Partial<Record<SectionId, SectionId>>> = {
  appliance: "visit",
  instrument: "review",
  closing: "changed",
};

/** Widths of a table's columns, by its section: "*" shares what is left. */
const WIDTHS: Readonly<Partial<Record<SectionId, readonly (number | "*")[]>>> = {
  "gas-pressure": [150, 92, "*", "*"],
  readings: [150, 92, "*", "*"],
  turns: [74, 100, 26, "*"],
  warnings: [42, "*", 72, 150],
  notes: [42, "*", "*"],
};

/** A name, a column for each firing that was read, and the formula. */
function figureWidths(columns: number): readonly (number | "*")[] {
  return [104, ...Array.from({ length: columns - 2 }, () => "*" as const), 200];
}

/** Sets a record's texts, and knows whether a sign was lacking. */
export class Setting {
  lacking = false;
  readonly #width: number;
  readonly #covers: Covers;

  constructor(width: number, covers: Covers) {
    this.#width = width;
    this.#covers = covers;
  }

  text(text: string): string {
    const set = printable(text, this.#covers);
    if (set !== text && set.includes(NO_SIGN)) this.lacking = true;
    return set;
  }

  /** The same in runs, in which a word that is too long for any column may be broken anywhere. */
  #runs(text: string, look: Look = {}): Piece[] {
    return this.text(text)
      .split(LONG_WORD)
      .filter((part) => part !== "")
      .map((part) =>
        part.length >= LONG && !part.includes(" ")
          ? { text: part, ...look, wordBreak: "break-all" }
          : { text: part, ...look },
      );
  }

  head({ heading, name, stand, notice }: Report): Piece[] {
    return [
      { text: heading.toUpperCase(), bold: true, fontSize: 16, characterSpacing: 1.5, alignment: "center" },
      { text: this.#runs(name), fontSize: 11, alignment: "center", margin: [0, 1, 0, 0] },
      { text: this.text(stand), italics: true, fontSize: 8.5, alignment: "center", margin: [0, 1, 0, 2] },
      ...(notice === "" ? [] : [this.#notice(notice)]),
    ];
  }

  /** In a box: it stands out on a black and white printer too. */
  #notice(notice: string): Piece {
    return {
      table: { widths: ["*"], body: [[{ text: this.#runs(notice, { bold: true, fontSize: 8.5 }) }]] },
      layout: "notice",
      margin: [0, 2, 0, 4],
    };
  }

  sections({ sections }: Report): Piece[] {
    return sections.flatMap((section): Piece[] => {
      if (Object.values(BESIDE).includes(section.id)) return [];
      const beside = sections.find(({ id }) => id === BESIDE[section.id]);
      if (!beside) return [this.#section(section)];
      // What may be longer than a page has to break over pages.
      if ([section, beside].some(isLong)) return [this.#section(section), this.#section(beside)];
      const width = (this.#width - GAP) / 2;
      const columns = [section, beside].map((each) => this.#together(each, width));
      return [{ stack: [{ columns, columnGap: GAP }], unbreakable: true }];
    });
  }

  /** A section of the whole width: a table goes over to the next page row by row, under its heading. */
  #section(section: Section): Piece {
    const { id, name, blocks } = section;
    const [first, ...others] = blocks;
    if (first?.kind !== "table")
      return { ...this.#together(section, this.#width), unbreakable: !isLong(section) };
    const rest = others.flatMap((block) => this.#block(block, id, this.#width));
    return { stack: [this.#table(first.columns, first.rows, id, name), ...rest], margin: [0, 5, 0, 0] };
  }

  /** What stands beside another goes over to the next page with it. */
  #together({ id, name, blocks }: Section, width: number): Piece & { readonly stack: readonly Piece[] } {
    return {
      stack: [this.#heading(name), ...blocks.flatMap((block) => this.#block(block, id, width))],
      margin: [0, 5, 0, 0],
    };
  }

  #heading(name: string): Piece {
    return { table: { widths: ["*"], body: [[headingText(name)]] }, layout: "heading" };
  }

  #block(block: Block, id: SectionId, width: number): Piece[] {
    switch (block.kind) {
      case "facts":
        return [
          ...(block.name === "" ? [] : [{ text: block.name, italics: true, margin: [0, 3, 0, 0] } as const]),
          this.#facts(block.rows, id === "closing" ? ["*", 120] : [width === this.#width ? 150 : 92, "*"]),
        ];
      case "table":
        return [this.#table(block.columns, block.rows, id, null)];
      case "list":
        return this.#list(block.name, block.items);
      case "text":
        return [
          {
            text: this.text(block.text),
            fontSize: block.text.length > 60 ? SMALL : SIZE,
            margin: [0, 2, 0, 0],
          },
        ];
      case "signatures": {
        const lines = block.names.map((name) => ({ text: this.text(name), margin: [0, 16, 0, 0] as const }));
        return [{ table: { widths: lines.map(() => "*"), body: [lines] }, layout: "signatures" }];
      }
      case "trace": {
        const drawing = drawTrace(block.trace, PAPER_WIDTH, block.zone, PAPER_PANEL);
        return [
          { svg: traceSvg(drawing, FAMILY), width, margin: [0, 3, 0, 0] },
          { text: TRACE_LEGEND, fontSize: SMALL },
        ];
      }
    }
  }

  #facts(rows: readonly Fact[], widths: readonly (number | "*")[]): Piece {
    const body = rows.map((row) => [{ text: this.text(row.name) }, this.#cell(row, true)]);
    return { table: { widths, dontBreakRows: true, body }, layout: "ruled" };
  }

  #table(
    columns: readonly string[],
    rows: readonly (readonly Cell[])[],
    id: SectionId,
    heading: string | null,
  ): Piece {
    const widths = WIDTHS[id] ?? figureWidths(columns.length);
    const names = columns.map((name) => ({ text: name, italics: true, fontSize: SMALL + 0.4 }));
    const over = columns.map((_, i) =>
      i === 0 && heading !== null ? { ...headingText(heading), colSpan: columns.length } : { text: "" },
    );
    const head = heading === null ? [names] : [over, names];
    const body = rows.map((row) => row.map((each, i) => this.#cell(each, i > 0 && each.verdict !== null)));
    return {
      table: {
        widths,
        headerRows: head.length,
        keepWithHeaderRows: Math.min(KEPT_ROWS, rows.length),
        dontBreakRows: true,
        body: [...head, ...body],
      },
      layout: "ruled",
    };
  }

  /** A value, then its verdict, then what has to be said with it; what failed stands out without any colour. */
  #cell({ text, verdict, note }: Cell, isValue: boolean): Piece {
    const runs = this.#runs(text, { bold: isValue });
    if (verdict === "fail") runs.push({ text: `  × ${VERDICT_WORDS.fail.toUpperCase()}`, bold: true });
    else if (verdict) runs.push({ text: `  ${VERDICT_WORDS[verdict]}` });
    if (note !== "") runs.push(...this.#runs(`  ${note}`, { italics: true, fontSize: SMALL + 0.2 }));
    return { text: runs };
  }

  /** One to a line; those of a name run on, for they are short. */
  #list(name: string, items: readonly string[]): Piece[] {
    if (name === "") return items.map((item) => ({ text: this.#runs(`– ${item}`), margin: [0, 1, 0, 0] }));
    const together = items
      .map((item) => (item.endsWith(".") ? item : `${item};`))
      .join(" ")
      .replace(/;$/, "");
    return [{ text: [{ text: `${name}: `, italics: true }, ...this.#runs(together)], margin: [0, 2, 0, 0] }];
  }
}

/** So many rows are never parted from the heading above them. */
const KEPT_ROWS = 2;

function headingText(name: string): Piece {
  return { text: name.toUpperCase(), bold: true, fontSize: 7.8, characterSpacing: 0.7 };
}

/** So many letters of text are kept together on one page, beside another section or alone. */
const MOST_LETTERS = 1500;

/** Whether a section without a table may be longer than what stands well together. */
function isLong({ blocks }: Section): boolean {
  const letters = blocks.flatMap((block) => (block.kind === "list" ? block.items : [])).join(" ").length;
  return letters > MOST_LETTERS;
}
