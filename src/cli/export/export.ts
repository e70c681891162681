import { logLine, logWords } from "../../record/integrity/words.ts";
import { revisionsOf } from "../../record/office/revision.ts";
import { found } from "../../record/problem.ts";
import type { Visit } from "../../visit/visit.ts";
import { findingOf } from "../examine-log.ts";
import { unwritable } from "../unwritable.ts";
import { refuse, type Verb } from "../verb.ts";
import { readFlags, USAGE } from "./flags.ts";
import { readVisits } from "./read-visits.ts";
import { isThere, writeWhole } from "./whole-files.ts";

/**
 * Writes visits as a table, workbook, calendar or combined bundles. One line for each bundle that is bad, then one that says what
 * was written. The status is 2 where the arguments cannot be read. Nothing is written, and the status is 1, where a bundle is bad (but for --skip-bad), nothing is left, or a file
 * of that name is there (but for --force).
 */
export const exportVerb: Verb = {
  usage: USAGE,
  async run(args, io) {
    const read = readFlags(args);
    if (!read.ok) return refuse(io, "export", read.problems, 2);
    const { files, to, kind, table, skipBad, force } = read.flags;
    const paths = kind.paths(to);
    const there = await Promise.all(paths.map(isThere));
    const taken = force ? [] : paths.filter((_path, place) => there[place]);
    const { visits: all, bad } = await readVisits(files);
    for (const { problems, ...where } of bad) io.json({ ...where, ok: false, problems });
    const visits = onceEach(all);
    const problems = [
      ...taken.map((path) => `${path} is there already; --force writes over it`),
      ...(bad.length > 0 && !skipBad
        ? [`${bad.length} of ${bad.length + all.length} bundles are bad; --skip-bad goes on without them`]
        : []),
      ...(visits.length === 0 ? ["expected at least one sound visit bundle, found none"] : []),
    ];
    if (problems.length > 0) return refuse(io, "export", [...problems, "Nothing was written"], 1);
    try {
      const made = await kind.make({ visits, to, table, now: new Date().toISOString() });
      if (!made.ok) return refuse(io, "export", [made.problem, "Nothing was written"], 1);
      await writeWhole(made.files);
      for (const notice of [...made.notices, ...(await alteredAmong(visits))]) io.say(`export: ${notice}`);
    } catch (error) {
      return refuse(io, "export", [unwritable(to, error), "Nothing was written"], 1);
    }
    const superseded = all.length - visits.length;
    io.json({ ok: true, files: paths, visits: visits.length, superseded, skipped: bad.length });
    return 0;
  },
};

/** A sentence for each visit whose log is altered: whatever is made of it hands on what somebody changed. */
async function alteredAmong(visits: readonly Visit[]): Promise<string[]> {
  const sentences: string[] = [];
  for (const visit of visits) {
    const finding = await findingOf(visit);
    if (finding.kind !== "altered") continue;
    const line = logLine(logWords(visit, { finding, trouble: null }));
    sentences.push(`visit ${found(visit.head.id)}: ${line.replace(/^Its/, "its")}`);
  }
  return sentences;
}

/** Each visit once, as its latest revision has it, at the place where it came first. */
function onceEach(visits: readonly Visit[]): Visit[] {
  const byId = new Map<string, Visit[]>();
  for (const visit of visits) byId.set(visit.head.id, [...(byId.get(visit.head.id) ?? []), visit]);
  return [...byId.values()].map((revisions) => revisionsOf(revisions).standing);
}
