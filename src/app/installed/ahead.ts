import { type ReadonlySignal, signal } from "@preact/signals";
import { z } from "zod";
import { AHEAD_SETS, type AheadCache, type AheadFile, type AheadSet } from "../../device/ahead-cache.ts";

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
  /** What went wrong last, in one sentence; null once something has gone well again. */
  readonly trouble = signal<string | null>(null);
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
   * Fetches what of a set is not kept yet. Where that fails, or is given up, what was fetched so far stays.
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

  cancel(set: AheadSet): void {
    this.#running.get(set)?.stop.abort();
  }

  /**
   * Fetches the newest version's files of what is kept of this one, so that a device that works without a network does so
   * after an update as well. Rejects where that fails.
   */
  async fetchNewest(): Promise<void> {
    const newest = await this.#list("newest");
    for (const set of AHEAD_SETS) {
      if (this.#states.value[set].kind !== "kept") continue;
      await this.#fetch(set, this.#used(newest[set]), new AbortController().signal);
    }
  }

  async #fetchAll(set: AheadSet, signal: AbortSignal): Promise<void> {
    try {
      const files = this.#used((await this.#list("this"))[set]);
      await this.#fetch(set, files, signal);
      this.trouble.value = null;
      await this.#settle(set, files);
    } catch (error) {
      if (!signal.aborted)
        this.trouble.value = `Not all could be fetched (${this.#world.reason(error)}): try again where there is a network.`;
      await this.look();
    }
  }

  async #fetch(set: AheadSet, files: readonly AheadFile[], signal: AbortSignal): Promise<void> {
    const bytes = sum(files);
    let received = sum(await this.#world.cache.kept(set, files));
    const show = () => this.#put(set, { kind: "fetching", bytes, fraction: Math.min(1, received / bytes) });
    show();
    const more = (piece: number) => {
      received += piece;
      show();
    };
    await this.#world.cache.fetch(set, files, more, signal);
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
