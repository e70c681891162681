import { parseArgs } from "node:util";
import { readFonts } from "../device/pdf/fonts-node.ts";
import { isoTime } from "../measure/instant.ts";
import { importVisit } from "../record/bundle.ts";
import { sizeProblem } from "../record/format.ts";
import { coveredByAll } from "../record/report/family.ts";
import { recordPdf } from "../record/report/pdf.ts";
import { reportOf } from "../record/report/report.ts";
import { findingOf } from "./examine-log.ts";
import { isThere, writeWhole } from "./export/whole-files.ts";
import { textOf } from "./read-file.ts";
import { unwritable } from "./unwritable.ts";
import { refuse, type Verb } from "./verb.ts";

const USAGE = "report FILE [--to OUT.pdf] [--force]";

/**
 * The record of a visit: as one JSON object, or with --to as a PDF file. Exit status 2 where the arguments cannot be read, 1
 * where the bundle is bad or the file cannot be written.
 */
export const report: Verb = {
  usage: USAGE,
  run: async (args, io) => {
    const flags = readFlags(args);
    if (!flags.ok) return refuse(io, "report", flags.problems, 2);
    const { file, to, force } = flags;
    if (to !== undefined && !force && (await isThere(to)))
      return refuse(
        io,
        "report",
        [`${to} is there already; --force writes over it`, "Nothing was written"],
        1,
      );
    const text = await textOf(file, (bytes) => sizeProblem(bytes, "visit"));
    const read = text.ok ? importVisit(text.text) : text;
    if (!read.ok) {
      const problems = read.problems.map(
        ({ path, message }) => `${file}: ${path === "" ? "" : `${path}: `}${message}`,
      );
      return refuse(io, "report", problems, 1);
    }
    const examined = { finding: await findingOf(read.visit), trouble: null };
    const made = reportOf(read.visit, isoTime(Date.now()), examined);
    if (to === undefined) {
      io.json(made);
      return 0;
    }
    const fonts = await readFonts();
    const covers = coveredByAll(Object.values(fonts).map(({ bytes }) => bytes));
    const { makePdf } = await import("../device/pdf/make.ts");
    const pdf = await makePdf(recordPdf(made, covers), fonts);
    try {
      await writeWhole([{ path: to, pieces: [pdf] }]);
    } catch (error) {
      return refuse(io, "report", [unwritable(to, error), "Nothing was written"], 1);
    }
    io.json({ file, to, bytes: pdf.length });
    return 0;
  },
};

type Flags =
  | { readonly ok: true; readonly file: string; readonly to: string | undefined; readonly force: boolean }
  | { readonly ok: false; readonly problems: readonly string[] };

function readFlags(args: readonly string[]): Flags {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { to: { type: "string" }, force: { type: "boolean" } },
      allowPositionals: true,
    });
    const [file, ...more] = positionals;
    const { to, force = false } = values;
    const problems: string[] = [];
    if (file === undefined || more.length > 0)
      problems.push(`expected one visit bundle, found ${positionals.length}`);
    if (to !== undefined && !to.toLowerCase().endsWith(".pdf"))
      problems.push(`--to: expected a file ending in .pdf, found "${to}"`);
    return file !== undefined && problems.length === 0
      ? { ok: true, file, to, force }
      : { ok: false, problems: [...problems, `usage: ${USAGE}`] };
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      problems: [`expected a visit bundle, --to and --force only: ${found}`, `usage: ${USAGE}`],
    };
  }
}
