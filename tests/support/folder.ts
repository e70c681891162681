import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";

export interface TestFolder {
  readonly path: string;
  /** Writes a file into it: the path of that file. */
  file(name: string, content: string | Uint8Array): string;
}

/** An empty folder for the tests of one file, removed after the last of them. */
export function testFolder(): TestFolder {
  const path = mkdtempSync(join(tmpdir(), "burnerside-"));
  afterAll(() => rmSync(path, { recursive: true, maxRetries: 5 }));
  return {
    path,
    file: (name, content) => {
      writeFileSync(join(path, name), content);
      return join(path, name);
    },
  };
}
