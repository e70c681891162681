import pg from "pg";
import type { Engine } from "./book.ts";
import { PARSERS } from "./column-types.ts";
import { copyingPool } from "./server-pool.ts";
import type { Target, Tls } from "./target.ts";

const ANSWERS_WITHIN_MS = 15_000;

/** Connects to a PostgreSQL server, the first time with each way of TLS until one is understood. Throws what the driver throws. */
export async function openServer({ address, tls }: Extract<Target, { kind: "server" }>): Promise<Engine> {
  let refused: unknown;
  for (const ssl of tls) {
    const pool = poolOf(address, ssl);
    try {
      const { rows } = await pool.query<{ version: string }>("select version() as version");
      return {
        pool: copyingPool(pool),
        name: nameOf(rows[0]?.version ?? ""),
        countsRows: true,
        close: () => pool.end(),
      };
    } catch (error) {
      await pool.end();
      refused = error;
      if (!isWithoutTls(error)) break;
    }
  }
  throw refused;
}

function poolOf(address: string, ssl: Tls): pg.Pool {
  const pool = new pg.Pool({
    connectionString: address,
    ssl,
    max: 2,
    connectionTimeoutMillis: ANSWERS_WITHIN_MS,
    application_name: "burnerside office",
    types: {
      getTypeParser: (oid, format) =>
        (format === "binary" ? undefined : PARSERS[oid]) ?? pg.types.getTypeParser(oid, format),
    },
  });
  // A connection that breaks while nobody uses it: the next query tells.
  pool.on("error", () => {});
  return pool;
}

function isWithoutTls(error: unknown): boolean {
  return error instanceof Error && /does not support SSL/.test(error.message);
}

/** "PostgreSQL 15.18" of "PostgreSQL 15.18 (Debian 15.18-0+deb12u1) on …". */
function nameOf(version: string): string {
  return /^[^\s(]+ [^\s(,]+/.exec(version)?.[0] ?? version;
}
