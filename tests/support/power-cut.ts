import fs, { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { dirname, join, relative } from "node:path";

/** What happened in a folder, in order. A file is a number, whatever it is called; names are relative to the folder. */
type Happening =
  | { readonly kind: "write"; readonly file: number; readonly at: number; readonly bytes: Buffer }
  | { readonly kind: "resize"; readonly file: number; readonly size: number }
  /** Of a file; null: of the names in a folder. */
  | { readonly kind: "flush"; readonly file: number | null }
  | { readonly kind: "name"; readonly name: string; readonly file: number }
  | { readonly kind: "folder"; readonly name: string }
  | { readonly kind: "remove"; readonly name: string };

/** A folder that is written to, watched. */
export interface WatchedDisk {
  /** How much has happened. */
  happened(): number;
  /**
   * Makes a folder as the disk may have it where the power is cut once so much has happened. What was flushed is there; of what was
   * not, `chance` (0 to 1) says of each write whether it is there, whole, in part or not at all. Names are kept in order, and every flush
   * keeps those so far, as the journals of file systems do (ext4's, from memory). `flushes` false: as if nothing was ever flushed.
   */
  cutInto(folder: string, happened: number, chance: () => number, flushes: boolean): void;
  stop(): void;
}

/** A disk writes whole sectors: of these many bytes all or none. */
const SECTOR = 512;

/**
 * A stand-in for a disk that can lose its power: watches what this process does in a folder through Node's own calls, those that
 * PGlite uses.
 */
export function watchDisk(folder: string): WatchedDisk {
  const happenings: Happening[] = [];
  const before: Buffer[] = [];
  const folders: string[] = [];
  const files = new Map<string, number>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    if (entry.isDirectory()) folders.push(relative(folder, path));
    else files.set(relative(folder, path), before.push(readFileSync(path)) - 1);
  }
  const names = new Map(files);
  let made = before.length;
  /** By descriptor; null: a folder. */
  const opened = new Map<number, number | null>();
  const nameOf = (path: unknown): string | null =>
    typeof path === "string" && (path === folder || path.startsWith(`${folder}/`))
      ? relative(folder, path)
      : null;
  const isOpened = (fd: unknown): fd is number => opened.has(Number(fd));
  const fileOf = (name: string): number => {
    const file = names.get(name);
    if (file === undefined) throw new Error(`Expected a file that was seen before, found "${name}".`);
    return file;
  };
  const undo: (() => void)[] = [];

  /** Has `seen` look at each call of one of Node's functions that went well. */
  function watch(name: keyof typeof fs, seen: (args: readonly unknown[], result: unknown) => void): void {
    const real = fs[name] as (...args: unknown[]) => unknown;
    const watched = (...args: unknown[]) => {
      const result = real.apply(fs, args);
      seen(args, result);
      return result;
    };
    Object.assign(fs, { [name]: watched });
    undo.push(() => Object.assign(fs, { [name]: real }));
  }
  watch("openSync", ([path], fd) => {
    const name = nameOf(path);
    if (name === null) return;
    const isFolder = fs.fstatSync(Number(fd)).isDirectory();
    if (!isFolder && !names.has(name)) {
      names.set(name, made);
      happenings.push({ kind: "name", name, file: made++ });
    }
    opened.set(Number(fd), isFolder ? null : fileOf(name));
  });
  watch("closeSync", ([fd]) => opened.delete(Number(fd)));
  watch("writeSync", ([fd, buffer, offset, length, position]) => {
    const file = isOpened(fd) ? opened.get(fd) : undefined;
    if (typeof file !== "number") return;
    if (!ArrayBuffer.isView(buffer) || typeof position !== "number")
      throw new TypeError("Expected bytes, and the place of each write.");
    const bytes = Buffer.from(buffer.buffer, buffer.byteOffset + Number(offset), Number(length));
    happenings.push({ kind: "write", file, at: position, bytes: Buffer.from(bytes) });
  });
  watch("ftruncateSync", ([fd, size]) => {
    const file = isOpened(fd) ? opened.get(fd) : undefined;
    if (typeof file === "number") happenings.push({ kind: "resize", file, size: Number(size) });
  });
  watch("truncateSync", ([path, size]) => {
    const name = nameOf(path);
    if (name !== null) happenings.push({ kind: "resize", file: fileOf(name), size: Number(size) });
  });
  watch("fsyncSync", ([fd]) => {
    if (isOpened(fd)) happenings.push({ kind: "flush", file: opened.get(fd) ?? null });
  });
  watch("mkdirSync", ([path]) => {
    const name = nameOf(path);
    if (name !== null) happenings.push({ kind: "folder", name });
  });
  watch("renameSync", ([from, to]) => {
    const [old, name] = [nameOf(from), nameOf(to)];
    if (old === null || name === null) return;
    const file = fileOf(old);
    names.delete(old);
    names.set(name, file);
    happenings.push({ kind: "name", name, file }, { kind: "remove", name: old });
  });
  for (const remove of ["unlinkSync", "rmdirSync"] as const)
    watch(remove, ([path]) => {
      const name = nameOf(path);
      if (name === null) return;
      names.delete(name);
      happenings.push({ kind: "remove", name });
    });
  syncBuiltinESMExports();

  return {
    happened: () => happenings.length,
    stop: () => {
      for (const each of undo) each();
      syncBuiltinESMExports();
    },
    cutInto: (into, happened, chance, flushes) => {
      const past = happenings.slice(0, happened).filter(({ kind }) => flushes || kind !== "flush");
      const left = namesAfter(past, files, chance);
      const contents = contentsAfter(past, before, chance);
      for (const name of [...folders, ...left.folders]) mkdirSync(join(into, name), { recursive: true });
      for (const [name, file] of left.files) {
        mkdirSync(dirname(join(into, name)), { recursive: true });
        writeFileSync(join(into, name), contents.get(file) ?? before[file] ?? "");
      }
    },
  };
}

/** The files that have a name after a power cut, and the folders that were made. */
function namesAfter(
  past: readonly Happening[],
  before: ReadonlyMap<string, number>,
  chance: () => number,
): { readonly files: ReadonlyMap<string, number>; readonly folders: readonly string[] } {
  const flushed = past.findLastIndex(({ kind }) => kind === "flush") + 1;
  const kept = past.slice(0, flushed + Math.round(chance() * (past.length - flushed)));
  const files = new Map(before);
  for (const each of kept) {
    if (each.kind === "name") files.set(each.name, each.file);
    if (each.kind === "remove") files.delete(each.name);
  }
  return { files, folders: kept.flatMap((each) => (each.kind === "folder" ? [each.name] : [])) };
}

/** What is in the files that were written to, after a power cut. */
function contentsAfter(
  past: readonly Happening[],
  before: readonly Buffer[],
  chance: () => number,
): Map<number, Buffer> {
  const flushedTo = new Map<number, number>();
  past.forEach((each, place) => {
    if (each.kind === "flush" && each.file !== null) flushedTo.set(each.file, place);
  });
  const contents = new Map<number, Buffer>();
  past.forEach((each, place) => {
    if (each.kind !== "write" && each.kind !== "resize") return;
    const isSafe = place < (flushedTo.get(each.file) ?? -1);
    const content = contents.get(each.file) ?? Buffer.from(before[each.file] ?? "");
    contents.set(each.file, changed(content, each, isSafe ? 1 : 2 * chance() - 0.5));
  });
  return contents;
}

/** A file after a part of a change, 1 and more being all of it, 0 and less nothing. Of a write its first sectors are there. */
function changed(
  content: Buffer,
  change: Extract<Happening, { kind: "write" | "resize" }>,
  part: number,
): Buffer {
  if (part <= 0) return content;
  if (change.kind === "resize")
    return change.size <= content.length
      ? content.subarray(0, change.size)
      : Buffer.concat([content, Buffer.alloc(change.size - content.length)]);
  const { at, bytes } = change;
  const end = part >= 1 ? bytes.length : Math.floor((part * bytes.length) / SECTOR) * SECTOR;
  const long =
    content.length >= at + end ? content : Buffer.concat([content, Buffer.alloc(at + end - content.length)]);
  bytes.copy(long, at, 0, end);
  return long;
}
