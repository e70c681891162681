import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { PostgresCursor, PostgresPool, PostgresPoolClient, PostgresQueryResult } from "kysely";
import type pg from "pg";
import { from } from "pg-copy-streams";
import { rowsToCopy } from "./copy.ts";

/** A server's connections, which can copy rows in as well. */
export function copyingPool(pool: pg.Pool): PostgresPool {
  return { connect: async () => new Client(await pool.connect()), end: () => pool.end() };
}

class Client implements PostgresPoolClient {
  readonly #client: pg.PoolClient;
  /** The same, as the query builder sees it. */
  readonly #plain: PostgresPoolClient;

  constructor(client: pg.PoolClient) {
    this.#client = client;
    this.#plain = client;
  }

  query<R>(sql: string, parameters: readonly unknown[]): Promise<PostgresQueryResult<R>>;
  query<R>(cursor: PostgresCursor<R>): PostgresCursor<R>;
  query<R>(
    statement: string | PostgresCursor<R>,
    parameters: readonly unknown[] = [],
  ): Promise<PostgresQueryResult<R>> | PostgresCursor<R> {
    if (typeof statement !== "string") throw new TypeError("Expected a statement, found a cursor.");
    return this.#run<R>(statement, parameters);
  }

  release(): void {
    this.#client.release();
  }

  async #run<R>(statement: string, parameters: readonly unknown[]): Promise<PostgresQueryResult<R>> {
    const copied = rowsToCopy(statement, parameters);
    if (copied === null) return this.#plain.query<R>(statement, parameters);
    const stream = this.#client.query(from(statement));
    await pipeline(Readable.from([Buffer.from(copied)]), stream);
    return { command: "INSERT", rowCount: stream.rowCount, rows: [] };
  }
}
