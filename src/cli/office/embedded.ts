import { existsSync } from "node:fs";
import { mkdir, mkdtemp, readdir, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { PGlite } from "@electric-sql/pglite";
import type { Engine, Purpose } from "./book.ts";
import { PARSERS } from "./column-types.ts";
import { poolOf } from "./embedded-pool.ts";
import { flushFolder, flushTree } from "./flush.ts";
import { FlushedFolder } from "./flushed-folder.ts";
import { lockFolder } from "./lock.ts";
import { Trouble } from "./trouble.ts";

/** In the book's folder; made whole under another name first, so that a kill leaves no half of it. */
const DATA = "data";
const UNFINISHED = "unfinished-";

/** Memory and log of the embedded server: a book is written by one process in batches, each on the disk before the next. */
const SETTINGS = [
  "shared_buffers=64MB",
  "max_wal_size=128MB",
  "min_wal_size=32MB",
  "fsync=on",
  "wal_sync_method=fsync",
  // Its tables are asked by their indexes: a rough count of rows does for the planner, and takes a quarter of the time.
  "default_statistics_target=10",
];
/** Among PGlite's own: flush nothing. */
const NO_FLUSH = "-F";
const START = [
  ...PGlite.defaultStartParams.filter((param) => param !== NO_FLUSH),
  ...SETTINGS.flatMap((setting) => ["-c", setting]),
];

/** Opens PostgreSQL inside this process on a folder, which no other process may have open. */
export async function openEmbedded(path: string, purpose: Purpose): Promise<Engine> {
  await prepareFolder(path, purpose);
  const lock = await lockFolder(path);
  if (!lock)
    throw new Trouble(`${path}: expected a book that nobody has open, found that another process has it.`);
  try {
    const data = join(path, DATA);
    if (!existsSync(data)) await makeData(path, data);
    const lite = await openLite(data);
    return {
      pool: poolOf(lite),
      name: "embedded",
      countsRows: false,
      close: async () => {
        await lite.close();
        await lock.release();
      },
    };
  } catch (error) {
    await lock.release();
    throw error;
  }
}

async function prepareFolder(path: string, purpose: Purpose): Promise<void> {
  if (existsSync(join(path, DATA, "PG_VERSION"))) return;
  if (purpose === "read")
    throw new Trouble(`${path}: expected an office book, found none; "office load" makes one.`);
  await mkdir(path, { recursive: true }).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "EEXIST" || error.code === "ENOTDIR")
      throw new Trouble(`${path}: expected a folder for the office book, found a file of that name.`);
    throw error;
  });
  const others = (await readdir(path)).filter((name) => !name.startsWith(UNFINISHED));
  if (others.length > 0)
    throw new Trouble(
      `${path}: expected an office book or an empty folder, found one with other files in it.`,
    );
}

async function makeData(path: string, data: string): Promise<void> {
  for (const name of await readdir(path))
    if (name.startsWith(UNFINISHED)) await rm(join(path, name), { recursive: true });
  const unfinished = await mkdtemp(join(path, UNFINISHED));
  const lite = await openLite(unfinished);
  await lite.close();
  // What PGlite copied into it when it was made is on the disk before it has the name of a book.
  await flushTree(unfinished);
  await rename(unfinished, data);
  await flushFolder(path);
  await flushFolder(dirname(path));
}

function openLite(folder: string): Promise<PGlite> {
  return PGlite.create({ fs: new FlushedFolder(folder), parsers: PARSERS, startParams: START });
}
