import type { Io } from "../verb.ts";
import type { Book } from "./book.ts";
import { judgeAnew, staleVisits } from "./judge-anew.ts";
import type { Judges } from "./judges.ts";
import { type Loaded, load } from "./load.ts";
import { showProgress } from "./progress.ts";
import { bytesIn } from "./sources.ts";

const ENDED_BY_CTRL_C = 130;
const now = () => new Date().toISOString();

/** For people. */
export const olderVisits = (count: number): string =>
  count === 1
    ? "one visit that an older program has judged"
    : `${count} visits that an older program has judged`;

/** Loads with its progress on standard error, and one line about the whole on standard output; the exit status. */
export async function runLoad(
  book: Book,
  judges: Judges,
  paths: readonly string[],
  batch: number,
  io: Io,
): Promise<number> {
  let stopped = false;
  const stop = () => {
    stopped = true;
  };
  // The second time it ends at once, as ever: what was loaded stays.
  process.once("SIGINT", stop);
  io.say(`office: loading into a book, ${book.engine}.`);
  const started = performance.now();
  const progress = showProgress(io.say, process.stderr, await bytesIn(paths), () => performance.now());
  try {
    const stale = await staleVisits(book);
    if (stale > 0) progress.say(`office: judging anew ${olderVisits(stale)}.`);
    const judgedAnew = stale > 0 ? await judgeAnew(book, now, () => stopped) : 0;
    const loaded = await load(judges, book, {
      paths,
      batch,
      stdin: io.input,
      now,
      refused: (sentence) => progress.say(`office: ${sentence}`),
      progress: progress.update,
      stopped: () => stopped,
    });
    progress.stop();
    io.json(lineOf(loaded, judgedAnew, book, (performance.now() - started) / 1000));
    for (const sentence of leftOut(loaded)) io.say(`office: ${sentence}`);
    if (stopped) io.say("office: ended after a batch; run it again to go on from there.");
    return stopped ? ENDED_BY_CTRL_C : loaded.bad > 0 ? 1 : 0;
  } finally {
    progress.stop();
    process.off("SIGINT", stop);
  }
}

/** Why bundles added nothing. */
function leftOut({ skipped, same }: Loaded): string[] {
  const bundles = (count: number) => (count === 1 ? "one bundle was" : `${count} bundles were`);
  return [
    ...(skipped > 0
      ? [`${bundles(skipped)} skipped: loaded before, byte for byte, and not read again.`]
      : []),
    ...(same > 0 ? [`${bundles(same)} read and not kept: the book has that revision of the visit.`] : []),
  ];
}

/** The contract of the line on standard output. */
function lineOf(
  { visits, revisions, same, skipped, bad, entries }: Loaded,
  judgedAnew: number,
  { engine }: Book,
  seconds: number,
): object {
  const entriesPerSecond = Math.round(entries / seconds);
  return {
    engine,
    visits,
    revisions,
    same,
    skipped,
    bad,
    judgedAnew,
    entries,
    seconds: Number(seconds.toFixed(3)),
    entriesPerSecond,
  };
}
