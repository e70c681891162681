import { open, readdir } from "node:fs/promises";
import { join } from "node:path";

/** Flushes a folder with all that is in it to the disk. */
export async function flushTree(folder: string): Promise<void> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) await flushTree(path);
    else if (entry.isFile()) await flush(path, "r+");
  }
  await flushFolder(folder);
}

/** Flushes the names in a folder: without that a file that was made, or renamed, may be gone after a power cut. */
export async function flushFolder(folder: string): Promise<void> {
  // Windows has no such thing.
  if (process.platform !== "win32") await flush(folder, "r");
}

async function flush(path: string, flags: "r" | "r+"): Promise<void> {
  const file = await open(path, flags);
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}
