import { existsSync, mkdtempSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";

export interface TestFolder {
  readonly path: string;
  /** Writes a file into it: the path of that file. */
  file(name: string, content: string | Uint8Array): string;
}

/** Memory as a folder (Linux), and how many bytes have to be free there for it to be used. */
const SHM = "/dev/shm";
const ROOM = 2 ** 32;

/** Where tests write: in memory where there is much of it, for a book is flushed to the disk again and again. */
export function roomForTests(): string {
  if (!existsSync(SHM)) return tmpdir();
  const { bavail, bsize } = statfsSync(SHM);
  return bavail * bsize >= ROOM ? SHM : tmpdir();
}

/** An empty folder for the tests of one file, removed after the last of them. */
export function testFolder(): TestFolder {
  const path = mkdtempSync(join(roomForTests(), "burnerside-"));
  afterAll(() => rmSync(path, { recursive: true, maxRetries: 5 }));
  return {
    path,
    file: (name, content) => {
      writeFileSync(join(path, name), content);
      return join(path, name);
    },
  };
}
