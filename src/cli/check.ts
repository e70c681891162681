import { type AnyFile, readAnyFile } from "../record/any-file.ts";
import { sizeProblem } from "../record/format.ts";
import type { Finding } from "../record/integrity/finding.ts";
import { fingerprint } from "../record/integrity/fingerprint.ts";
import { misfitPath, misfitWords } from "../record/integrity/words.ts";
import { bounded, MOST, type Problem } from "../record/problem.ts";
import type { Visit } from "../visit/visit.ts";
import { checkedBackup } from "./check-backup.ts";
import { findingOf } from "./examine-log.ts";
import { textOf } from "./read-file.ts";
import type { Verb } from "./verb.ts";

/**
 * Validates limits sheets, visit bundles and backups, and examines the logs of visits: one line for each file, status 1 if any is
 * bad or altered. An unsigned one is sound.
 */
export const check: Verb = {
  usage: "check FILE…",
  async run(args, io) {
    if (args.length === 0) {
      io.say("check: expected at least one file, found none. Usage: check FILE…");
      return 2;
    }
    let sound = true;
    for (const file of args) {
      const backup = await checkedBackup(file);
      if (backup) {
        const { problems } = backup;
        sound &&= problems.length === 0;
        io.json({ file, ok: problems.length === 0, problems, backup: backup.backup });
        if (backup.backup.locked && problems.length === 0)
          io.say(`${file}: a locked backup, in order as far as can be told without its passphrase.`);
        continue;
      }
      const { visit, problems: read } = await contentOf(file);
      const finding = visit && (await findingOf(visit));
      const problems = [...read, ...(visit && finding ? misfitsOf(visit, finding) : [])];
      sound &&= problems.length === 0;
      io.json({
        file,
        ok: problems.length === 0,
        problems,
        ...(finding && { integrity: shownFinding(finding) }),
      });
    }
    return sound ? 0 : 1;
  },
};

async function contentOf(file: string): Promise<AnyFile> {
  const read = await textOf(file, (bytes) => sizeProblem(bytes, "visit"));
  return read.ok ? readAnyFile(read.text) : { visit: null, problems: read.problems };
}

/** Where a log does not fit, as problems of its file. */
function misfitsOf(visit: Visit, finding: Finding): readonly Problem[] {
  if (finding.kind !== "altered") return [];
  return bounded(
    finding.misfits.map((misfit) => ({ path: misfitPath(misfit), message: misfitWords(visit, misfit) })),
  );
}

/** A finding for programs: `verdict`, and by which keys (whole, and as people compare them) and how far, or where it does not fit. */
function shownFinding({ kind: verdict, ...found }: Finding): object {
  if ("misfits" in found) return { verdict, misfits: found.misfits.slice(0, MOST) };
  if (!("signed" in found)) return { verdict, ...found };
  const signed = found.signed.map((one) => ({ ...one, fingerprint: fingerprint(one.key) }));
  return { verdict, ...found, signed };
}
