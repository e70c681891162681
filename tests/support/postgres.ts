import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";

/** A real PostgreSQL server for tests. */
export interface PostgresServer {
  /** For people: "PostgreSQL 15.18 on 127.0.0.1:54321". */
  readonly name: string;
  /** The address of a database that is empty. */
  freshDatabase(): Promise<string>;
  /** One statement, with all rights. */
  run(statement: string): Promise<void>;
  stop(): Promise<void>;
}

/** Where Debian puts the programs of each version; the newest last. */
const DEBIAN = "/usr/lib/postgresql";

/** The address of a server to use, of a user who may make databases. */
const { BURNERSIDE_POSTGRES: GIVEN } = process.env;

/** Why no server can be started for tests, or null where one can. */
export function whyNoPostgres(): string | null {
  if (GIVEN || binaries() !== null) return null;
  return `no PostgreSQL under ${DEBIAN}, and no address in BURNERSIDE_POSTGRES`;
}

function binaries(): string | null {
  const versions = existsSync(DEBIAN) ? readdirSync(DEBIAN).sort((a, b) => Number(a) - Number(b)) : [];
  const [newest] = versions
    .map((version) => join(DEBIAN, version, "bin"))
    .filter(existsSync)
    .reverse();
  return newest ?? null;
}

/** The server of BURNERSIDE_POSTGRES, or one of its own on loopback that is gone with the tests. */
export async function startPostgres(): Promise<PostgresServer> {
  if (GIVEN) return serverAt(GIVEN, async () => {});
  const bin = binaries();
  if (bin === null) throw new Error(whyNoPostgres() ?? "");
  const data = mkdtempSync(join(tmpdir(), "burnerside-postgres-"));
  const user = notRoot();
  if (user.uid !== undefined) chownSync(data, user.uid, user.gid ?? user.uid);
  execFileSync(
    join(bin, "initdb"),
    ["-D", data, "-U", "tests", "-A", "trust", "-N", "-E", "UTF8", "--locale=C"],
    {
      ...user,
      cwd: tmpdir(),
      stdio: "ignore",
    },
  );
  // One user who needs a password, so that a wrong one can be tried.
  writeFileSync(
    join(data, "pg_hba.conf"),
    "host all guarded 127.0.0.1/32 scram-sha-256\nhost all all 127.0.0.1/32 trust\n",
  );
  const port = await freePort();
  const settings = [
    "listen_addresses=127.0.0.1",
    "unix_socket_directories=",
    "fsync=off",
    "full_page_writes=off",
  ];
  const child = spawn(
    join(bin, "postgres"),
    ["-D", data, "-p", String(port), ...settings.flatMap((setting) => ["-c", setting])],
    { ...user, cwd: tmpdir(), stdio: "ignore" },
  );
  return serverAt(`postgres://tests@127.0.0.1:${port}/postgres?sslmode=disable`, async () => {
    await ended(child);
    rmSync(data, { recursive: true, maxRetries: 5 });
  });
}

/** The server refuses to run as root: then it runs as the user that Debian's package has made. */
function notRoot(): { uid?: number; gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const id = (flag: string) => Number(execFileSync("id", [flag, "postgres"], { encoding: "utf8" }));
  return { uid: id("-u"), gid: id("-g") };
}

function freePort(): Promise<number> {
  return new Promise((done, failed) => {
    const server = createServer();
    server.once("error", failed);
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      const port = typeof address === "object" && address ? address.port : 0;
      server.close(() => done(port));
    });
  });
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  const over = new Promise((done) => child.once("exit", done));
  // At once: nothing is to be kept.
  child.kill("SIGQUIT");
  await over;
}

let databases = 0;

async function serverAt(address: string, stop: () => Promise<void>): Promise<PostgresServer> {
  const version = await untilReady(address);
  const made: string[] = [];
  const run = (statement: string) => once(address, statement).then(() => {});
  return {
    name: `PostgreSQL ${version} on ${new URL(address).host}`,
    run,
    freshDatabase: async () => {
      databases += 1;
      const name = `burnerside_${process.pid}_${databases}`;
      await run(`create database ${name}`);
      made.push(name);
      const url = new URL(address);
      url.pathname = `/${name}`;
      return url.href;
    },
    stop: async () => {
      for (const name of made) await run(`drop database if exists ${name} with (force)`);
      await stop();
    },
  };
}

async function once(address: string, statement: string): Promise<{ server_version?: unknown }[]> {
  const client = new pg.Client({ connectionString: address });
  // A server that is stopped beneath it is no failure here.
  client.on("error", () => {});
  await client.connect();
  try {
    return (await client.query<{ server_version?: unknown }>(statement)).rows;
  } finally {
    await client.end();
  }
}

async function untilReady(address: string): Promise<string> {
  for (let tries = 1; ; tries += 1) {
    try {
      const [row] = await once(address, "show server_version");
      return String(row?.server_version).split(" ")[0] ?? "";
    } catch (error) {
      if (tries === 200) throw error;
      await new Promise((done) => setTimeout(done, 50));
    }
  }
}
