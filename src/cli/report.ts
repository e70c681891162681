import { writeFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import { readFonts } from "../device/pdf/fonts-node.ts";
import { isoTime } from "../measure/instant.ts";
import { importVisit } from "../record/bundle.ts";
import { sizeProblem } from "../record/format.ts";
import { coveredByAll } from "../record/report/family.ts";
import { recordPdf } from "../record/report/pdf.ts";
import { reportOf } from "../record/report/report.ts";
import { textOf } from "./read-file.ts";
import { refuse, type Verb } from "./verb.ts";

/** The record of a visit: as one JSON object, or with --to as a PDF file. */
export const report: Verb = {
  usage: "report FILE [--to OUT.pdf]",
  run: async (args, io) => {
    const flags = readFlags(args);
    if (!flags.ok) return refuse(io, "report", flags.problems, 1);
    const { file, to } = flags;
    const text = await textOf(file, (bytes) => sizeProblem(bytes, "visit"));
    const read = text.ok ? importVisit(text.text) : text;
    if (!read.ok) {
      const problems = read.problems.map(
        ({ path, message }) => `${file}: ${path === "" ? "" : `${path}: `}${message}`,
      );
      return refuse(io, "report", problems, 1);
    }
    const made = reportOf(read.visit, isoTime(Date.now()));
    if (to === undefined) {
      io.json(made);
      return 0;
    }
    const fonts = await readFonts();
    const covers = coveredByAll(Object.values(fonts).map(({ bytes }) => bytes));
    const { makePdf } = await import("../device/pdf/make.ts");
    const pdf = await makePdf(recordPdf(made, covers), fonts);
    try {
      await writeFile(to, pdf);
    } catch (error) {
      return refuse(io, "report", [`${to}: ${error instanceof Error ? error.message : String(error)}`], 1);
    }
    io.json({ file, to, bytes: pdf.length });
    return 0;
  },
};

type Flags =
  | { readonly ok: true; readonly file: string; readonly to: string | undefined }
  | { readonly ok: false; readonly problems: readonly string[] };

function readFlags(args: readonly string[]): Flags {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { to: { type: "string" } },
      allowPositionals: true,
    });
    const [file, ...more] = positionals;
    if (file !== undefined && more.length === 0) return { ok: true, file, to: values.to };
    return { ok: false, problems: [`expected one visit bundle, found ${positionals.length}`] };
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    return { ok: false, problems: [`expected a visit bundle and --to only: ${found}`] };
  }
}
