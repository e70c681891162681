import type { HandedFile } from "../../device/office/files.ts";
import type { Taken } from "../../device/office/store.ts";
import { epochMs } from "../../measure/instant.ts";
import type { Export, KeptVisit, TakenAs } from "../../record/office/kept.ts";
import { type Judged, LARGEST_BYTES, tooLarge } from "./judged.ts";
import { shownName } from "./words.ts";

/** How far taking in has come. */
export interface Progress {
  /** Files that were gone through, and how many there are. */
  readonly files: number;
  readonly of: number;
  /** The same in bytes. */
  readonly bytes: number;
  readonly ofBytes: number;
  /** How many visits were taken in which way. */
  readonly taken: Readonly<Record<TakenAs, number>>;
  /** How many that were stored have a log that somebody altered. */
  readonly altered: number;
  /** How many files, or lines of one, were not taken in. */
  readonly refused: number;
}

export const NOTHING_YET: Progress = {
  files: 0,
  of: 0,
  bytes: 0,
  ofBytes: 0,
  taken: { new: 0, same: 0, newer: 0, older: 0, forked: 0 },
  altered: 0,
  refused: 0,
};

/** How far several together have come. */
export function sumOf(all: readonly Progress[]): Progress {
  const sum = (number: (progress: Progress) => number) => all.reduce((so, each) => so + number(each), 0);
  return {
    files: sum(({ files }) => files),
    of: sum(({ of }) => of),
    bytes: sum(({ bytes }) => bytes),
    ofBytes: sum(({ ofBytes }) => ofBytes),
    taken: {
      new: sum(({ taken }) => taken.new),
      same: sum(({ taken }) => taken.same),
      newer: sum(({ taken }) => taken.newer),
      older: sum(({ taken }) => taken.older),
      forked: sum(({ taken }) => taken.forked),
    },
    altered: sum(({ altered }) => altered),
    refused: sum(({ refused }) => refused),
  };
}

/** What is told on the way: how far it is, which visits changed, and why something was not taken in. */
export interface Told {
  readonly progress: Progress;
  readonly changed: readonly KeptVisit[];
  readonly sentences: readonly string[];
}

export interface TakeInWorld {
  readonly judged: (name: string, bytes: Uint8Array, now: string) => Promise<Judged>;
  readonly keep: (exports: readonly Export[]) => Promise<readonly Taken[]>;
  /** ISO 8601. */
  readonly now: () => string;
  /** A pause in which a wish to stop can arrive. */
  readonly breathe: () => Promise<void>;
  readonly isStopped: () => boolean;
  readonly tell: (told: Told) => void;
}

/** So many are stored together at most, and after so long what there is, ms: how far it is can be seen. */
const BATCH = 40;
const BATCH_MS = 300;

/**
 * Takes in files, each with a visit, or with one a line (`.jsonl`). What is bad is told and changes nothing; what was
 * taken in before it was stopped stays. Resolves to whether it was stopped. Rejects where storing fails; the batches before that stay.
 */
export async function takeIn(files: readonly HandedFile[], world: TakeInWorld): Promise<boolean> {
  try {
    await takeAll(files, world);
  } catch (error) {
    throw error instanceof StoreFault ? error.cause : error;
  }
  return world.isStopped();
}

async function takeAll(files: readonly HandedFile[], world: TakeInWorld): Promise<void> {
  const run = new Run(files, world);
  let ahead = bytesOf(files[0]);
  for (const [place, file] of files.entries()) {
    const bytes = ahead;
    // Read while the one before is judged.
    ahead = bytesOf(files[place + 1]);
    if (world.isStopped()) break;
    await run.take(file, bytes);
  }
  await run.store();
}

/** The bytes of a file that is read as a whole; null for one that is not. */
function bytesOf(file: HandedFile | undefined): Promise<Uint8Array> | null {
  if (!file || isLines(file) || tooLarge("", file.size)) return null;
  const bytes = file.bytes();
  // It is awaited when its turn comes.
  bytes.catch(() => undefined);
  return bytes;
}

function isLines({ name }: HandedFile): boolean {
  return /\.(jsonl|ndjson)$/i.test(name);
}

class Run {
  readonly #world: TakeInWorld;
  #progress: Progress;
  #waiting: Export[] = [];
  #sentences: string[] = [];
  #storedAt: number;

  constructor(files: readonly HandedFile[], world: TakeInWorld) {
    this.#world = world;
    this.#storedAt = epochMs(world.now());
    this.#progress = {
      ...NOTHING_YET,
      of: files.length,
      ofBytes: files.reduce((sum, { size }) => sum + size, 0),
    };
  }

  async take(file: HandedFile, bytes: Promise<Uint8Array> | null): Promise<void> {
    const name = shownName(file.name);
    const before = this.#progress.bytes;
    try {
      if (isLines(file)) await this.#takeLines(name, file);
      else if (bytes) await this.#one(name, await bytes);
      else this.#refuse(tooLarge(name, file.size) ?? "");
    } catch (error) {
      if (error instanceof StoreFault) throw error;
      this.#refuse(`${name}: it cannot be read (${error instanceof Error ? error.message : "unknown"}).`);
    }
    if (this.#world.isStopped()) return;
    this.#change({ files: this.#progress.files + 1, bytes: before + file.size });
  }

  /** Stores what waits, and tells how far it is. */
  async store(): Promise<void> {
    const exports = this.#waiting;
    this.#waiting = [];
    const changed = new Map<string, KeptVisit>();
    if (exports.length > 0) {
      const taken = await this.#world.keep(exports).catch((error: unknown) => {
        throw new StoreFault("", { cause: error });
      });
      for (const [place, { as, kept }] of taken.entries()) {
        this.#count(as);
        if (as !== "same" && exports[place]?.log.verdict === "altered")
          this.#change({ altered: this.#progress.altered + 1 });
        if (kept) changed.set(kept.id, kept);
      }
    }
    const sentences = this.#sentences;
    this.#sentences = [];
    this.#storedAt = epochMs(this.#world.now());
    this.#world.tell({ progress: this.#progress, changed: [...changed.values()], sentences });
  }

  async #takeLines(name: string, file: HandedFile): Promise<void> {
    let number = 0;
    for await (const { size, bytes } of file.lines(LARGEST_BYTES)) {
      number += 1;
      this.#change({ bytes: this.#progress.bytes + size + 1 });
      const place = `${name}, line ${number}`;
      if (!bytes) this.#refuse(tooLarge(place, size) ?? "");
      else if (!isBlank(bytes)) await this.#one(place, bytes);
      if (this.#world.isStopped()) return;
    }
    if (number === 0) this.#refuse(`${name}: expected a visit a line, found nothing.`);
  }

  async #one(name: string, bytes: Uint8Array): Promise<void> {
    const now = this.#world.now();
    const one = await this.#world.judged(name, bytes, now);
    switch (one.kind) {
      case "export":
        this.#waiting.push(one.export);
        break;
      case "known":
        this.#count("same");
        break;
      case "refused":
        this.#refuse(one.sentence);
        break;
    }
    const isFull = this.#waiting.length >= BATCH || this.#sentences.length >= BATCH;
    if (isFull || epochMs(now) - this.#storedAt >= BATCH_MS) await this.store();
    await this.#world.breathe();
  }

  #count(as: TakenAs): void {
    const { taken } = this.#progress;
    this.#change({ taken: { ...taken, [as]: taken[as] + 1 } });
  }

  #refuse(sentence: string): void {
    this.#sentences.push(sentence);
    this.#change({ refused: this.#progress.refused + 1 });
  }

  #change(change: Partial<Progress>): void {
    this.#progress = { ...this.#progress, ...change };
  }
}

/** A fault of the store, as against one of a file. */
class StoreFault extends Error {}

function isBlank(line: Uint8Array): boolean {
  return line.every((byte) => byte === 0x20 || byte === 0x09 || byte === 0x0d);
}
