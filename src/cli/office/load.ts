import type { Problem } from "../../record/problem.ts";
import type { Book } from "./book.ts";
import { type Chunk, chunksOf } from "./chunks.ts";
import { inOrder } from "./in-order.ts";
import type { Judged, Sound } from "./judged.ts";
import type { Judges } from "./judges.ts";
import { type Input, sourcesIn, type Unread } from "./sources.ts";
import { isOfData } from "./trouble.ts";
import { type Written, writeBatch } from "./write.ts";

/** How far a load has come. */
export interface Loaded extends Written {
  /** Files and lines that were looked at, and the bytes of those that could be read. */
  readonly seen: number;
  readonly bytes: number;
  /** Bundles that were in from an earlier load, and were not read again. */
  readonly skipped: number;
  readonly bad: number;
  /** Of the bundles that were written. */
  readonly entries: number;
}

export interface LoadOptions {
  readonly paths: readonly string[];
  readonly stdin: Input;
  /** Entries that a transaction holds at least, unless they are the last. */
  readonly batch: number;
  /** ISO 8601. */
  readonly now: () => string;
  /** A file that is no sound bundle, in a sentence. */
  readonly refused: (sentence: string) => void;
  readonly progress: (loaded: Loaded) => void;
  /** Asked after each batch: whether to end there. */
  readonly stopped: () => boolean;
}

/** A transaction holds at most about so much, however few entries that is. */
const BATCH_BYTES = 8 * 1024 * 1024;
/** Handfuls with the threads, for each. */
const AHEAD = 4;

/** Loads bundles into a book, batch by batch. What was loaded stays, whatever comes after; run again it goes on from there. */
export async function load(judges: Judges, book: Book, options: LoadOptions): Promise<Loaded> {
  const { refused, progress, stopped } = options;
  let loaded = NOTHING;
  let batch: Sound[] = [];
  const add = (more: Partial<Loaded>) => {
    loaded = sum(loaded, more);
    progress(loaded);
  };
  const flush = async () => {
    const written = await write(book, batch, options);
    batch = [];
    add(written);
  };
  const judge = (chunk: Chunk) => judgeNew(judges, book, chunk);
  for await (const { judged, unread, skipped, seen, bytes } of inOrder(
    chunksOf(sourcesIn(options.paths, options.stdin)),
    judge,
    AHEAD * judges.threads,
  )) {
    for (const { name, problem } of unread) refused(`${name}: ${problem}`);
    const unsound = judged.flatMap((each) => (each.ok ? [] : [each]));
    for (const { name, problems } of unsound) refused(`${name}: ${inShort(problems)}`);
    batch.push(...judged.flatMap((each) => (each.ok ? [each] : [])));
    add({ seen, bytes, skipped, bad: unread.length + unsound.length });
    if (isFull(batch, options.batch)) await flush();
    if (stopped()) break;
  }
  if (batch.length > 0) await flush();
  if (loaded.entries > 0) await book.tidy();
  return loaded;
}

interface JudgedChunk {
  readonly judged: readonly Judged[];
  readonly unread: readonly Unread[];
  readonly skipped: number;
  readonly seen: number;
  readonly bytes: number;
}

/** Judges those sources of a handful that the book has not. */
async function judgeNew(judges: Judges, { db }: Book, { sources, unread }: Chunk): Promise<JudgedChunk> {
  const digests = sources.map(({ sha256 }) => sha256);
  const rows =
    digests.length === 0
      ? []
      : await db.selectFrom("files").select("sha256").where("sha256", "in", digests).execute();
  const known = new Set(rows.map(({ sha256 }) => sha256));
  const fresh = sources.filter(({ sha256 }) => !known.has(sha256));
  return {
    judged: fresh.length === 0 ? [] : await judges.judge(fresh),
    unread,
    skipped: sources.length - fresh.length,
    seen: sources.length + unread.length,
    bytes: sources.reduce((all, { bytes }) => all + bytes.length, 0),
  };
}

/** Writes a batch; where the server refuses its rows, each bundle alone, so that only those that it refuses are left out. */
async function write(book: Book, batch: readonly Sound[], options: LoadOptions): Promise<Partial<Loaded>> {
  const entries = batch.reduce((all, sound) => all + sound.entries, 0);
  try {
    return { ...(await writeBatch(book.db, batch, options.now())), entries };
  } catch (error) {
    if (!isOfData(error)) throw error;
    const [only, ...others] = batch;
    if (only && others.length === 0) {
      options.refused(
        `${only.name}: Expected a bundle that the database can hold, found one that it refuses: ${error.message}.`,
      );
      return { bad: 1 };
    }
    let all = NOTHING;
    for (const sound of batch) all = sum(all, await write(book, [sound], options));
    return all;
  }
}

const NOTHING: Loaded = {
  visits: 0,
  revisions: 0,
  same: 0,
  seen: 0,
  bytes: 0,
  skipped: 0,
  bad: 0,
  entries: 0,
};

function sum(a: Loaded, b: Partial<Loaded>): Loaded {
  return {
    visits: a.visits + (b.visits ?? 0),
    revisions: a.revisions + (b.revisions ?? 0),
    same: a.same + (b.same ?? 0),
    seen: a.seen + (b.seen ?? 0),
    bytes: a.bytes + (b.bytes ?? 0),
    skipped: a.skipped + (b.skipped ?? 0),
    bad: a.bad + (b.bad ?? 0),
    entries: a.entries + (b.entries ?? 0),
  };
}

function isFull(batch: readonly Sound[], most: number): boolean {
  const entries = batch.reduce((all, sound) => all + sound.entries, 0);
  const bytes = batch.reduce((all, sound) => all + sound.bytes, 0);
  return entries >= most || bytes >= BATCH_BYTES;
}

/** The first problem of a file and how many more there are: a load tells one sentence a file, "check" tells all. */
function inShort([first, ...others]: readonly Problem[]): string {
  if (!first) return "Expected a visit bundle.";
  const place = first.path === "" ? "" : `${first.path}: `;
  if (others.length === 0) return `${place}${first.message}`;
  const more = others.length === 1 ? "one more problem" : `${others.length} more problems`;
  return `${place}${first.message.replace(/\.$/, "")}, and ${more}.`;
}
