import { computed, effect, type ReadonlySignal, signal } from "@preact/signals";
import type { Installation } from "../../device/installation.ts";
import type { StorageUse } from "../../device/storage.ts";
import type { TabLock } from "../../device/tab-lock.ts";
import type { WakeLock } from "../../device/wake-lock.ts";
import { Ahead, type AheadWorld } from "./ahead.ts";

/** How a newer version stands. It is only ever put in place when a person says so, and never during a visit. */
export type Update =
  | { readonly kind: "none" }
  | { readonly kind: "offered" }
  | { readonly kind: "under-way" }
  /** `why` in one sentence. */
  | { readonly kind: "put-off"; readonly why: string };

export interface InstalledWorld extends AheadWorld {
  readonly installation: Installation;
  readonly wakeLock: WakeLock;
  /** All windows in which a visit runs take part in it. */
  readonly visitLock: TabLock;
  readonly storageUse: () => Promise<StorageUse | null>;
  readonly storageKept: () => Promise<boolean | null>;
  /** Asks for the promise to keep what is stored; whether it was given. */
  readonly keepForGood: () => Promise<boolean>;
  /** Calls back now and then. */
  readonly nowAndThen: (tick: () => void) => void;
}

/** The app as it is installed on the device: versions, files ahead, the screen that stays on, storage. */
export class Installed {
  readonly ahead: Ahead;
  readonly #update = signal<Update>({ kind: "none" });
  /** Null while not asked for, or where the browser does not tell. */
  readonly storage = signal<StorageUse | null>(null);
  /** Whether the browser has promised to keep the notebook. */
  readonly kept = signal<boolean | null>(null);
  /** Whether that was asked for: null is then that the browser does not tell. */
  readonly keptAsked = signal(false);
  readonly #world: InstalledWorld;
  #visitRuns: ReadonlySignal<boolean> = signal(false);
  #asked = false;

  constructor(world: InstalledWorld) {
    this.#world = world;
    this.ahead = new Ahead(world);
  }

  /** The newer version, as far as it is to be shown: during a visit nothing is. */
  readonly update = computed<Update>(() => (this.#visitRuns.value ? { kind: "none" } : this.#update.value));

  get keepsAwake(): boolean {
    return this.#world.wakeLock.supported;
  }

  /**
   * From now on a visit keeps the screen on, and newer versions away from all windows.
   * @param visitRuns whether a visit is being worked on in this window
   * @param isWatched whether the screen is to stay on
   */
  watch(visitRuns: ReadonlySignal<boolean>, isWatched: ReadonlySignal<boolean>): void {
    const { wakeLock, visitLock } = this.#world;
    this.#visitRuns = visitRuns;
    effect(() => (isWatched.value ? wakeLock.hold() : wakeLock.release()));
    effect(() => (visitRuns.value ? visitLock.join() : undefined));
  }

  /** Installs the app, and looks for newer versions from now on. Never rejects: without it the app works with a network. */
  async start(): Promise<void> {
    const { installation, nowAndThen } = this.#world;
    nowAndThen(() => void installation.look());
    const newer = () => {
      if (this.#update.value.kind !== "under-way") this.#update.value = { kind: "offered" };
    };
    // Another window put it in place. A visit goes on in the version that it has.
    const swapped = () => {
      if (this.#visitRuns.value) this.#update.value = { kind: "offered" };
      else installation.reload();
    };
    await installation.start({ newer, swapped }).catch(() => undefined);
    await this.ahead.look();
  }

  /** Puts the newer version in place and loads it, unless a visit runs in any window. */
  async accept(): Promise<void> {
    const { installation, visitLock, reason } = this.#world;
    this.#update.value = { kind: "under-way" };
    try {
      const done = await visitLock.alone(async () => {
        await this.ahead.fetchNewest();
        await installation.swap();
        installation.reload();
      });
      if (!done) this.#putOff("A visit runs in another window: finish or leave it first.");
    } catch (error) {
      this.#putOff(`The newer version could not be fetched (${reason(error)}): this one goes on.`);
      await this.ahead.look();
    }
  }

  /** Asks the browser how much is stored, and whether it stays. */
  async weigh(): Promise<void> {
    this.storage.value = await this.#world.storageUse();
    await this.lookKept();
  }

  /** Asks the browser whether what is stored stays. */
  async lookKept(): Promise<void> {
    this.kept.value = await this.#world.storageKept();
    this.keptAsked.value = true;
  }

  /** Asks, once, for the browser's promise to keep the notebook: some browsers ask the person. */
  async keepForGood(): Promise<void> {
    if (this.#asked) return;
    this.#asked = true;
    this.kept.value = await this.#world.keepForGood();
  }

  #putOff(why: string): void {
    this.#update.value = { kind: "put-off", why };
  }
}
