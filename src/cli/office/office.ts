import { isThere } from "../export/whole-files.ts";
import { type Io, refuse, type Verb } from "../verb.ts";
import { type Book, openBook, type Purpose } from "./book.ts";
import { exportParquet } from "./export.ts";
import { type Request, readRequest, USAGE } from "./flags.ts";
import { staleVisits } from "./judge-anew.ts";
import { startJudges } from "./judges.ts";
import { driftOf, followUpsUntil, visitsSince } from "./queries.ts";
import { olderVisits, runLoad } from "./run-load.ts";
import { bytesIn, STDIN, sourcesIn } from "./sources.ts";
import type { Target } from "./target.ts";
import { troubleOf } from "./trouble.ts";

/**
 * The office's book: loads bundles into it, and answers from it. Exit status 2 where the arguments cannot be read, 1 where a
 * file was bad or the book could not be used, 130 where a load was ended with Ctrl-C.
 */
export const office: Verb = {
  usage: USAGE,
  run: async (args, io) => {
    const read = readRequest(args);
    if (!read.ok) return refuse(io, "office", read.problems, 2);
    const { request } = read;
    try {
      if (request.task === "export" && !request.force && (await isThere(request.file)))
        return refuse(io, "office", [`${request.file} is there already; --force writes over it`], 1);
      // A book is only made for something.
      if (request.task === "load" && (await nothingIn(request.paths, io))) return 1;
      if (request.task !== "load")
        return await withBook(request.target, "read", (book) => answer(book, request, io));
      const judges = startJudges();
      try {
        const { paths, batch } = request;
        return await withBook(request.target, "write", (book) => runLoad(book, judges, paths, batch, io));
      } finally {
        await judges.close();
      }
    } catch (error) {
      return refuse(io, "office", [troubleOf(error, request.target)], 1);
    }
  },
};

/** What comes of a book, which is closed then. */
async function withBook(
  target: Target,
  purpose: Purpose,
  use: (book: Book) => Promise<number>,
): Promise<number> {
  const book = await openBook(target, purpose);
  const status = await use(book).catch(async (error: unknown) => {
    // What it cannot even be closed for is the same thing again.
    await book.close().catch(() => {});
    throw error;
  });
  await book.close();
  return status;
}

/** Whether there is nothing to load at all; then that is said. */
async function nothingIn(paths: readonly string[], io: Io): Promise<boolean> {
  if (paths.includes(STDIN) || (await bytesIn(paths)) > 0) return false;
  let told = false;
  for await (const source of sourcesIn(paths, io.input)) {
    if (!("problem" in source)) continue;
    told = true;
    io.say(`office: ${source.name}: ${source.problem}`);
  }
  const where = paths.map((path) => `"${path}"`).join(", ");
  if (!told) io.say(`office: expected at least one visit bundle (.json, .jsonl) in ${where}, found none.`);
  io.say("office: Nothing was loaded.");
  return true;
}

type Question = Exclude<Request, { task: "load" }>;

async function answer(book: Book, request: Question, io: Io): Promise<number> {
  const stale = await staleVisits(book);
  if (stale > 0) io.say(`office: the book has ${olderVisits(stale)}; the next "office load" judges anew.`);
  switch (request.task) {
    case "visits":
      for await (const visit of visitsSince(book.db, request.since)) io.json(visit);
      return 0;
    case "follow-ups":
      for await (const followUp of followUpsUntil(book.db, request.until)) io.json(followUp);
      return 0;
    case "drift": {
      const history = await driftOf(book.db, request.appliance);
      if (!history)
        return refuse(
          io,
          "office",
          [`expected an appliance that was visited, found no visit of "${request.appliance}"`],
          1,
        );
      for (const point of history.points) io.json({ appliance: history.appliance, ...point });
      return 0;
    }
    case "export": {
      const rows = await exportParquet(book.db, request.table, request.file);
      io.json({ file: request.file, table: request.table, rows });
      return 0;
    }
  }
}
