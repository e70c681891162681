import { type Io, refuse, type Verb } from "../verb.ts";
import { type Book, openBook } from "./book.ts";
import { exportParquet } from "./export.ts";
import { type Request, readRequest, USAGE } from "./flags.ts";
import { driftOf, followUpsUntil, visitsSince } from "./queries.ts";
import { runLoad } from "./run-load.ts";
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
      const book = await openBook(request.target, request.task === "load" ? "write" : "read");
      try {
        return await answer(book, request, io);
      } finally {
        await book.close();
      }
    } catch (error) {
      return refuse(io, "office", [troubleOf(error, request.target)], 1);
    }
  },
};

async function answer(book: Book, request: Request, io: Io): Promise<number> {
  switch (request.task) {
    case "load":
      return runLoad(book, request.paths, request.batch, io);
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
