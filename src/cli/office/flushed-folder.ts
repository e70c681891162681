import { fsyncSync } from "node:fs";
import type { PGlite } from "@electric-sql/pglite";
import { NodeFS } from "@electric-sql/pglite/nodefs";

type Made = Awaited<ReturnType<NodeFS["init"]>>;
type Module = Parameters<NonNullable<Made["emscriptenOpts"]["preRun"]>[number]>[0];

/** An open file as Emscripten's NODEFS has it: `nfd` is Node's own descriptor. */
interface OpenFile {
  readonly nfd: number;
  readonly node: { readonly mode: number };
}

/**
 * PGlite's folder on the disk, with files that are flushed where PostgreSQL asks for it. In PGlite's own none ever is (0.5.16): it
 * starts with fsync off, and were it on, `fd_sync` calls an operation `fsync` that the files of a folder do not have and reports
 * success. `fdatasync` reports success whatever is done here, so PostgreSQL must not be told to use it.
 */
export class FlushedFolder extends NodeFS {
  override async init(lite: PGlite, options: Parameters<NodeFS["init"]>[1]): Promise<Made> {
    const { emscriptenOpts } = await super.init(lite, options);
    return { emscriptenOpts: { ...emscriptenOpts, preRun: [...(emscriptenOpts.preRun ?? []), flushFiles] } };
  }
}

/** Gives files their missing operation. Throws where another version of PGlite has no place for it: never a book that is not flushed. */
function flushFiles(module: Module): void {
  const files: unknown = module.NODEFS;
  if (!hasOperations(files))
    throw new TypeError(
      "Expected the file operations of PGlite's NODEFS, found none: is it another version?",
    );
  Object.assign(files.stream_ops, {
    fsync: ({ nfd, node }: OpenFile) =>
      files.tryFSOperation(() => {
        // Windows flushes no folders, and keeps their names safe by itself.
        if (process.platform !== "win32" || !module.FS.isDir(node.mode)) fsyncSync(nfd);
        return 0;
      }),
  });
}

interface FileOperations {
  readonly stream_ops: object;
  /** Makes an error of the system PostgreSQL's. */
  tryFSOperation<T>(operation: () => T): T;
}

function hasOperations(files: unknown): files is FileOperations {
  return (
    typeof files === "object" &&
    files !== null &&
    "stream_ops" in files &&
    typeof files.stream_ops === "object" &&
    files.stream_ops !== null &&
    "tryFSOperation" in files
  );
}
