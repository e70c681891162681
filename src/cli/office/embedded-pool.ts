import type { PGlite } from "@electric-sql/pglite";
import type { PostgresCursor, PostgresPool, PostgresPoolClient, PostgresQueryResult } from "kysely";
import { rowsToCopy } from "./copy.ts";

/** The one connection of an embedded server, lent to one after the other: nobody's statements come between those of a transaction. */
export function poolOf(lite: PGlite): PostgresPool {
  let free: Promise<void> = Promise.resolve();
  return {
    connect: async () => {
      const before = free;
      let release = () => {};
      free = new Promise((done) => {
        release = done;
      });
      await before;
      return new Client(lite, release);
    },
    end: () => lite.close(),
  };
}

class Client implements PostgresPoolClient {
  readonly #lite: PGlite;
  readonly release: () => void;
  #failure: unknown = null;

  constructor(lite: PGlite, release: () => void) {
    this.#lite = lite;
    this.release = release;
  }

  query<R>(sql: string, parameters: readonly unknown[]): Promise<PostgresQueryResult<R>>;
  query<R>(cursor: PostgresCursor<R>): PostgresCursor<R>;
  query<R>(
    statement: string | PostgresCursor<R>,
    parameters: readonly unknown[] = [],
  ): Promise<PostgresQueryResult<R>> | PostgresCursor<R> {
    if (typeof statement !== "string") throw new TypeError("Expected a statement, found a cursor.");
    return this.#run<R>(statement, [...parameters]);
  }

  async #run<R>(statement: string, parameters: unknown[]): Promise<PostgresQueryResult<R>> {
    try {
      const copied = rowsToCopy(statement, parameters);
      const {
        rows,
        affectedRows = 0,
        command,
      } = copied === null
        ? await this.#lite.query<R>(statement, parameters)
        : await this.#lite.query<R>(statement.replace(/stdin$/, "'/dev/blob'"), [], {
            blob: new Blob([copied]),
          });
      return { command: commandOf(command), rowCount: affectedRows, rows };
    } catch (error) {
      // Where not even a rollback is possible (the disk is full), what came before it says why.
      const cause = statement === "rollback" ? (this.#failure ?? error) : error;
      this.#failure = cause;
      throw cause;
    }
  }
}

const COMMANDS = ["UPDATE", "DELETE", "INSERT", "SELECT", "MERGE", "COMMIT", "ROLLBACK"] as const;

/** Of a command that the query builder has no word for it asks nothing. */
function commandOf(command: string | undefined): (typeof COMMANDS)[number] {
  return COMMANDS.find((known) => command?.startsWith(known)) ?? "SELECT";
}
