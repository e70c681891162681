import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll } from "vitest";
import { openBook } from "../../src/cli/office/book.ts";
import { readTarget, type Target } from "../../src/cli/office/target.ts";
import { roomForTests } from "./folder.ts";
import { type PostgresServer, startPostgres, whyNoPostgres } from "./postgres.ts";

/** A kind of book that tests run against. */
export interface TestEngine {
  readonly name: "embedded" | "PostgreSQL";
  /** To be called in a `describe`: makes ready before its tests and cleans up after them. */
  prepare(): void;
  /** What `--to` is called with for a book that nobody has used. */
  fresh(): Promise<string>;
}

const missing = whyNoPostgres();
/** A busy machine takes seconds to make a database. */
const MAKING_MS = 60_000;

/** The embedded one always, and a real server where there is one. */
export const TEST_ENGINES: readonly TestEngine[] = [embedded(), ...(missing === null ? [server()] : [])];

/** Says which ran, once a file. */
function say(line: string): void {
  process.stderr.write(`office book: ${line}\n`);
}

function embedded(): TestEngine {
  let folder = "";
  let books = 0;
  return {
    name: "embedded",
    prepare: () => {
      beforeAll(async () => {
        say(missing === null ? "embedded" : `embedded; PostgreSQL skipped: ${missing}`);
        folder = mkdtempSync(join(roomForTests(), "burnerside-books-"));
        // Made once and copied: that takes a tenth of the time.
        const book = await openBook(targetOf(join(folder, "template")), "write");
        await book.close();
      }, MAKING_MS);
      afterAll(() => rmSync(folder, { recursive: true, maxRetries: 5 }), MAKING_MS);
    },
    fresh: async () => {
      books += 1;
      const path = join(folder, `book-${books}`);
      cpSync(join(folder, "template"), path, { recursive: true });
      return path;
    },
  };
}

function server(): TestEngine {
  let running: PostgresServer | null = null;
  return {
    name: "PostgreSQL",
    prepare: () => {
      beforeAll(async () => {
        running = await startPostgres();
        say(running.name);
      }, MAKING_MS);
      afterAll(() => running?.stop(), MAKING_MS);
    },
    fresh: async () => (await running?.freshDatabase()) ?? "",
  };
}

/** What a text on the command line means; the test fails where it is none. */
export function targetOf(text: string): Target {
  const read = readTarget(text);
  if (!read.ok) throw new Error(read.problem);
  return read.target;
}
