import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { z } from "zod";
import { AHEAD_SETS, type AheadCache, type AheadFile, type AheadSet } from "../../device/ahead-cache.ts";
import type { Missed } from "../../device/fetch-each.ts";
import { type Lack, lackSentence } from "./ahead-words.ts";

const AheadFiles = z.array(z.strictObject({ file: z.string(), bytes: z.int().nonnegative() })).default([]);

/** The list that the build writes: `ahead.json`. Another version's may have more sets, or fewer. */
const AheadList = z.object({
  ear: AheadFiles,
  voice: AheadFiles,
  pdf: AheadFiles,
  office: AheadFiles,
});
type AheadList = z.infer<typeof AheadList>;

/** How a set stands on this device. `bytes` are those of its files that this device uses. */
export type AheadState =
  /** Not looked at yet: that waits for the service worker. */
  | { readonly kind: "unknown" }
  /** This browser has no store for files, or the list of them could not be had. */
  | { readonly kind: "impossible" }
  | { readonly kind: "missing"; readonly bytes: number }
  | { readonly kind: "fetching"; readonly bytes: number; readonly fraction: number }
  | { readonly kind: "kept"; readonly bytes: number };

export interface AheadWorld {
  readonly cache: AheadCache;
  /** The list as JSON: of this version, or of the newest that the server has. */
  readonly list: (which: "this" | "newest") => Promise<unknown>;
  /** Whether a file is of the kind that this device uses. */
  readonly isUsed: (file: string) => boolean;
  /** Why something failed, without a full stop. */
  readonly reason: (error: unknown) => string;
}

type States = Readonly<Record<AheadSet, AheadState>>;
const UNKNOWN: AheadState = { kind: "unknown" };
const all = (state: AheadState): States => ({ ear: state, voice: state, pdf: state, office: state });

/** The recogniser's, the voice's, the PDF maker's and the office page's files: fetched with the first use, or ahead of it to have them without a network. */
export class Ahead {
  readonly #states = signal<States>(all(UNKNOWN));
  readonly #lacks = signal<ReadonlyMap<AheadSet, Lack>>(new Map());
  /** What could not be fetched when each set was last tried, in one sentence with what to do; null where all could. */
  readonly trouble = computed(() => lackSentence(this.#lacks.value));
  readonly #world: AheadWorld;
  readonly #running = new Map<AheadSet, { readonly done: Promise<void>; readonly stop: AbortController }>();

  constructor(world: AheadWorld) {
    this.#world = world;
  }

  get states(): ReadonlySignal<States> {
    return this.#states;
  }

  /** Looks at what is kept, and deletes what is left from an earlier version. */
  async look(): Promise<void> {
    try {
      const list = await this.#list("this");
      for (const set of AHEAD_SETS) {
        await this.#world.cache.sweep(set, list[set]);
        await this.#settle(set, this.#used(list[set]));
      }
    } catch {
      // Without a store for files nothing can be kept ahead; what is used is fetched all the same.
      this.#states.value = all({ kind: "impossible" });
    }
  }

  /**
   * Fetches what of a set is not kept yet. Where something fails, or it is given up, all that was fetched stays.
   * @param given when it aborts, nobody here waits for the set any more
   */
  async fetch(set: AheadSet, given?: AbortSignal): Promise<void> {
    given?.addEventListener("abort", () => this.cancel(set));
    const running = this.#running.get(set);
    if (running) return running.done;
    const stop = new AbortController();
    const done = this.#fetchAll(set, stop.signal).finally(() => this.#running.delete(set));
    this.#running.set(set, { done, stop });
    return done;
  }

  /**
   * Fetches a set that is to be imported now. Rejects, saying what is missing, where the network did not give it: a browser
   * may remember an import that failed, and not try it again even once there is a network.
   */
  async need(set: AheadSet): Promise<void> {
    await this.fetch(set);
    const lack = this.#lacks.value.get(set);
    // Without a store, or without room in it, the import itself may still succeed.
    if (!lack || lack.isFull || this.#states.value[set].kind === "impossible") return;
    throw new Error(lackSentence(new Map([[set, lack]])) ?? "");
  }

  cancel(set: AheadSet): void {
    this.#running.get(set)?.stop.abort();
  }

  /**
   * Fetches the newest version's files of what is kept of this one, so that a device that works without a network does so
   * after an update as well. Rejects where some of that fails; the rest is fetched all the same.
   */
  async fetchNewest(): Promise<void> {
    const newest = await this.#list("newest");
    const missed: Missed<AheadFile>[] = [];
    for (const set of AHEAD_SETS) {
      if (this.#states.value[set].kind !== "kept") continue;
      missed.push(...(await this.#fetch(set, this.#used(newest[set]), new AbortController().signal)));
    }
    if (missed[0]) throw missed[0].error;
  }

  async #fetchAll(set: AheadSet, signal: AbortSignal): Promise<void> {
    try {
      const files = this.#used((await this.#list("this"))[set]);
      const missed = await this.#fetch(set, files, signal);
      this.#lack(set, this.#lackOf(missed, { missing: missed.length, of: files.length }));
      await this.#settle(set, files);
    } catch (error) {
      if (!signal.aborted) this.#lack(set, this.#lackOf([{ error }], null));
      await this.look();
    }
  }

  async #fetch(
    set: AheadSet,
    files: readonly AheadFile[],
    signal: AbortSignal,
  ): Promise<readonly Missed<AheadFile>[]> {
    const bytes = sum(files);
    let received = sum(await this.#world.cache.kept(set, files));
    let fraction = 0;
    const show = () => {
      // What a file that broke off takes back is not shown: the bar waits for it.
      fraction = Math.max(fraction, Math.min(1, received / bytes));
      this.#put(set, { kind: "fetching", bytes, fraction });
    };
    show();
    const more = (piece: number) => {
      received += piece;
      show();
    };
    return this.#world.cache.fetch(set, files, more, signal);
  }

  /** Null where nothing is missing. */
  #lackOf(missed: readonly Pick<Missed<AheadFile>, "error">[], files: Lack["files"]): Lack | null {
    const full = missed.find(({ error }) => error instanceof Error && error.name === "QuotaExceededError");
    const told = full ?? missed[0];
    return told ? { files, reason: this.#world.reason(told.error), isFull: full !== undefined } : null;
  }

  #lack(set: AheadSet, lack: Lack | null): void {
    const lacks = new Map(this.#lacks.value);
    lacks.delete(set);
    if (lack) lacks.set(set, lack);
    this.#lacks.value = lacks;
  }

  async #settle(set: AheadSet, files: readonly AheadFile[]): Promise<void> {
    const kept = await this.#world.cache.kept(set, files);
    this.#put(set, { kind: kept.length === files.length ? "kept" : "missing", bytes: sum(files) });
  }

  #put(set: AheadSet, state: AheadState): void {
    this.#states.value = { ...this.#states.value, [set]: state };
  }

  #used(files: readonly AheadFile[]): AheadFile[] {
    return files.filter(({ file }) => this.#world.isUsed(file));
  }

  async #list(which: "this" | "newest"): Promise<AheadList> {
    return AheadList.parse(await this.#world.list(which));
  }
}

function sum(files: readonly AheadFile[]): number {
  return files.reduce((bytes, file) => bytes + file.bytes, 0);
}
