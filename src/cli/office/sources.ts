import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { opendir, readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { FORMATS, sizeProblem } from "../../record/format.ts";
import { unreadableAs } from "../read-file.ts";

/** What may be a bundle: the bytes of a file, or of a line of JSON Lines. */
export interface Source {
  /** For people: the file, with the line where it has several. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Of the bytes, in hexadecimal. */
  readonly sha256: string;
}

/** What cannot be read, in a sentence. */
export interface Unread {
  readonly name: string;
  readonly problem: string;
}

/** Standard input, on the command line. */
export const STDIN = "-";

const LINES = /\.(jsonl|ndjson)$/i;
const BUNDLES = /\.json$/i;
const LARGEST_BYTES = FORMATS.visit.largestMiB * 1024 * 1024;

/** Where the bytes of standard input come from. */
export type Input = AsyncIterable<Uint8Array>;

/** Every bundle in files, folders (with those in them; .json, .jsonl and .ndjson) and standard input, one after the other. */
export async function* sourcesIn(paths: readonly string[], stdin: Input): AsyncGenerator<Source | Unread> {
  for (const path of paths) {
    if (path === STDIN) yield* linesIn("standard input", stdin);
    else for await (const file of filesIn(path)) yield* typeof file === "string" ? inFile(file) : [file];
  }
}

/** How many bytes of files there are to read; standard input is not among them. */
export async function bytesIn(paths: readonly string[]): Promise<number> {
  let sum = 0;
  for (const path of paths.filter((each) => each !== STDIN))
    for await (const file of filesIn(path)) {
      const about = typeof file === "string" ? await stat(file).catch(() => null) : null;
      sum += about?.size ?? 0;
    }
  return sum;
}

async function* filesIn(path: string): AsyncGenerator<string | Unread> {
  try {
    if (!(await stat(path)).isDirectory()) return void (yield path);
    for await (const { name } of await opendir(path)) {
      const inside = join(path, name);
      if (name.startsWith(".")) continue;
      const about = await stat(inside);
      if (about.isDirectory()) yield* filesIn(inside);
      else if (about.isFile() && (BUNDLES.test(name) || LINES.test(name))) yield inside;
    }
  } catch (error) {
    yield { name: path, problem: `Expected a readable file or folder, found ${unreadableAs(error)}.` };
  }
}

async function* inFile(path: string): AsyncGenerator<Source | Unread> {
  try {
    if (LINES.test(path)) return void (yield* linesIn(path, createReadStream(path)));
    const about = await stat(path);
    const problem = about.isFile()
      ? sizeProblem(about.size, "visit")?.message
      : "Expected a file, found something else.";
    if (problem !== undefined) yield { name: path, problem };
    else yield sourceOf(path, await readFile(path));
  } catch (error) {
    yield { name: path, problem: `Expected a readable file, found ${unreadableAs(error)}.` };
  }
}

const NEWLINE = 10;

/** JSON Lines: a bundle a line; empty ones are passed over. Of a line that is too long no more is kept than that. */
async function* linesIn(name: string, chunks: Input): AsyncGenerator<Source | Unread> {
  let parts: Uint8Array[] = [];
  let length = 0;
  let number = 0;
  const end = (): (Source | Unread)[] => {
    number += 1;
    const line = Buffer.concat(parts);
    const size = length;
    parts = [];
    length = 0;
    const problem = sizeProblem(size, "visit");
    if (problem) return [{ name: `${name}:${number}`, problem: problem.message }];
    return isBlank(line) ? [] : [sourceOf(`${name}:${number}`, line)];
  };
  const add = (part: Uint8Array) => {
    if (length <= LARGEST_BYTES) parts.push(part);
    length += part.length;
  };
  for await (const chunk of chunks) {
    let from = 0;
    for (let to = chunk.indexOf(NEWLINE); to >= 0; to = chunk.indexOf(NEWLINE, from)) {
      add(chunk.subarray(from, to));
      yield* end();
      from = to + 1;
    }
    add(chunk.subarray(from));
  }
  if (length > 0) yield* end();
}

function isBlank(line: Uint8Array): boolean {
  return line.every((byte) => byte === 32 || byte === 9 || byte === 13);
}

function sourceOf(name: string, bytes: Uint8Array): Source {
  return { name, bytes, sha256: createHash("sha256").update(bytes).digest("hex") };
}
