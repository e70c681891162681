import { mkdtemp, open, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";

/** A file to be written: text or bytes, in pieces. */
export interface WholeFile {
  readonly path: string;
  readonly pieces: Iterable<string | Uint8Array>;
}

/**
 * Writes files as wholes: each beside its place first, and only when all are on the disk into their places, so that nobody finds
 * half a file there, and a failure leaves what was there before. Rejects where one cannot be written.
 */
export async function writeWhole(files: readonly WholeFile[]): Promise<void> {
  const folders: string[] = [];
  try {
    const written: (readonly [from: string, to: string])[] = [];
    for (const { path, pieces } of files) {
      // On the same disk: only then is the move one step.
      const folder = await mkdtemp(join(dirname(path), ".burnerside-"));
      folders.push(folder);
      const beside = join(folder, "part");
      await write(beside, pieces);
      written.push([beside, path]);
    }
    for (const [from, to] of written) await rename(from, to);
  } finally {
    for (const folder of folders) await rm(folder, { recursive: true, force: true });
  }
}

async function write(path: string, pieces: Iterable<string | Uint8Array>): Promise<void> {
  const file = await open(path, "wx");
  try {
    for (const piece of pieces) await file.writeFile(piece);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Whether something of that name is there already. */
export async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
