import { parse } from "csv-parse/sync";
import { csvOf } from "../../../../src/record/export/csv.ts";
import { table } from "../../../../src/record/export/table.ts";
import type { Visit } from "../../../../src/visit/visit.ts";
import { exactWords } from "../../../record/export/exact-words.ts";
import { head } from "../../../support/visits.ts";
import { NOTES } from "../corpus.ts";
import { broken, noise, pick } from "../mutate.ts";
import { Fault, type Target, target } from "../target.ts";

const VISIT: Visit = { format: "burnerside-visit/1", head: head(), entries: [] };
const COLUMNS = 3;
const HOSTILE = [
  "=1+1",
  "+1",
  "-2",
  "@SUM(A1)",
  "＝1",
  "'=1",
  ";=1",
  "|@x",
  "\t=1",
  "\r\n-1",
  '"',
  '"",""',
  "\ufeff",
  ",",
];

/** Where a spreadsheet may see a cell begin, and the sign that it takes for a formula (OWASP, "CSV Injection"). */
const RUN = /(?:^|[;|\t\r\n])[\s\p{Cf}]*[=+\-@＝＋－＠]/u;
const FIRST = /^[\t\r]/;
/** What no CSV may hold comes out as U+FFFD. */
const LOST = /[\p{Cs}\p{Noncharacter_Code_Point}]|(?![\t\n\r])\p{Cc}/gu;

export const CSV: readonly Target[] = [
  target<readonly (readonly string[])[]>({
    name: "CSV, written and read back",
    inputs: 8_000,
    draw: (chance) =>
      Array.from({ length: 1 + Math.floor(chance.from(0, 3)) }, () =>
        Array.from({ length: COLUMNS }, () => {
          const text = chance.is(0.5) ? pick(chance, HOSTILE) : pick(chance, NOTES);
          return chance.is(0.2) ? noise(chance, 20) : chance.is(0.3) ? text : broken(chance, text, HOSTILE);
        }),
      ),
    read: (rows) => {
      const cells = table<readonly string[]>({
        name: "fuzz",
        title: "Fuzz",
        description: "Fuzz",
        key: ["c0"],
        columns: Array.from({ length: COLUMNS }, (_, place) => ({
          name: `c${place}`,
          title: "C",
          description: "C",
          datatype: "string" as const,
          of: (row: readonly string[]) => row[place] ?? null,
        })),
        rowsOf: () => rows,
      });
      const [names, ...read]: string[][] = parse(csvOf(cells, [VISIT]), {
        bom: true,
        record_delimiter: "\r\n",
      });
      if (names?.length !== COLUMNS || read.length !== rows.length)
        throw new Fault(`${read.length} rows of ${rows.length} came back`);
      rows.forEach((row, at) => {
        row.forEach((text, place) => {
          const cell = read[at]?.[place] ?? "";
          if (RUN.test(cell) || FIRST.test(cell)) throw new Fault(`a formula: ${JSON.stringify(cell)}`);
          if (exactWords(cell) !== text.replace(LOST, "\uFFFD"))
            throw new Fault(`came back as ${JSON.stringify(cell).slice(0, 200)}`);
        });
      });
      return "accepted";
    },
  }),
];
