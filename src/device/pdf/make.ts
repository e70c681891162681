import pdfMake from "pdfmake";
import type { Content, CustomTableLayout, TDocumentDefinitions } from "pdfmake/interfaces.js";
import type { RecordPdf } from "../../record/report/pdf.ts";
import type { Piece, TableLook } from "../../record/report/pdf-piece.ts";

/** A font file: its bytes, and by what name the library knows it; where there is a disk, its path. */
export interface FontFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The font files of the one family, by style. */
export type FontFiles = Readonly<Record<"normal" | "bold" | "italics", FontFile>>;

const bare: CustomTableLayout = {
  hLineWidth: () => 0,
  vLineWidth: () => 0,
  paddingLeft: () => 0,
  paddingRight: () => 6,
  paddingTop: () => 1,
  paddingBottom: () => 1,
};

const LAYOUTS: Readonly<Record<TableLook, CustomTableLayout>> = {
  heading: { ...bare, hLineWidth: (row) => (row === 1 ? 0.9 : 0), paddingBottom: () => 0.5 },
  ruled: {
    ...bare,
    hLineWidth: (row, { table: { headerRows = 0 } }) => {
      if (row === 0) return 0;
      if (row > headerRows) return 0.25;
      return row === headerRows ? 0.5 : 0.9;
    },
    hLineColor: (row, { table: { headerRows = 0 } }) => (row > headerRows ? "#777777" : "#000000"),
  },
  signatures: { ...bare, hLineWidth: (row) => (row === 0 ? 0 : 0.5), paddingRight: () => 20 },
  notice: {
    hLineWidth: () => 1.2,
    vLineWidth: () => 1.2,
    paddingLeft: () => 6,
    paddingRight: () => 6,
    paddingTop: () => 3,
    paddingBottom: () => 3,
  },
};

/** A copy, for the library writes into what it is given; its types know no read-only lists. */
function asContent(content: Piece | readonly Piece[]): Content {
  return structuredClone(content) as Content;
}

/** Makes the file of a document; nothing is fetched. Rejects where a font cannot be read. */
export async function makePdf(record: RecordPdf, fonts: FontFiles): Promise<Uint8Array> {
  const files = Object.values(fonts);
  for (const { name, bytes } of files) pdfMake.virtualfs.writeFileSync(name, bytes);
  const { normal, bold, italics } = fonts;
  pdfMake.setFonts({ [record.font]: { normal: normal.name, bold: bold.name, italics: italics.name } });
  // Nothing else is read, whatever a text says.
  pdfMake.setUrlAccessPolicy(() => false);
  pdfMake.setLocalAccessPolicy?.((path) => files.some(({ name }) => name === path));
  pdfMake.setTableLayouts(LAYOUTS);
  const [left, , right] = record.margins;
  const definition: TDocumentDefinitions = {
    info: { title: record.title, subject: record.subject, creator: record.creator, producer: record.creator },
    language: "en-GB",
    displayTitle: true,
    version: "1.5",
    pageSize: record.pageSize,
    pageMargins: [...record.margins],
    defaultStyle: { font: record.font, fontSize: record.fontSize, lineHeight: 1.08 },
    content: asContent(record.content),
    background: () => asContent(record.frame),
    footer: (page, pages) => ({
      margin: [left, 2, right, 0],
      fontSize: record.footSize,
      columns: [
        { text: record.foot.join("\n"), width: "*" },
        { text: `Page ${page} of ${pages}`, width: "auto" },
      ],
    }),
  };
  return new Uint8Array(await pdfMake.createPdf(definition).getBuffer());
}
