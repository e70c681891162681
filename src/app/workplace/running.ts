import { batch, computed, signal } from "@preact/signals";
import type { Phrase } from "../../meaning/heard.ts";
import type { Session } from "../boiler/session.ts";
import type { Sessions } from "../boiler/sessions.ts";
import type { Hearing } from "./hearing.ts";
import type { Notices } from "./notices.ts";
import type { Shelves } from "./shelves.ts";

/** What a running visit stands among. */
export interface RunningWorld {
  readonly sessions: Sessions;
  readonly hearing: Hearing;
  readonly shelves: Shelves;
  readonly notices: Notices;
}

/** The visit at the boiler: open while its screen is, and known to run until it is finished or left. */
export class Running {
  /** Null while another screen is open. */
  readonly session = signal<Session | null>(null);
  /** Whether it was left for another screen before it was finished. */
  readonly leftOpen = signal(false);
  /** Whether the screen is to stay on: hands are at the boiler. */
  readonly isWatched = computed(() => this.session.value?.state.value.finished === false);
  /** Whether it holds what is on no disk: left, that would be lost. */
  readonly isHolding = computed(() => (this.session.value?.held.incoming.value.length ?? 0) > 0);
  readonly #world: RunningWorld;

  constructor(world: RunningWorld) {
    this.#world = world;
  }

  /** Hands a phrase to the visit, if one is open. */
  async hear(phrase: Phrase): Promise<void> {
    await this.session.value?.hear(phrase);
  }

  /** Looks whether one runs; rejects where the notebook cannot be read. */
  async look(): Promise<boolean> {
    this.leftOpen.value = (await this.#world.shelves.visits.running()) !== null;
    return this.leftOpen.value;
  }

  /** Opens the one that runs, unless it is open; whether there is one. Rejects where it cannot be read. */
  async open(): Promise<boolean> {
    // What is on no disk is known nowhere else.
    if (this.isHolding.value) return true;
    const id = await this.#world.shelves.visits.running();
    if (id === null) return false;
    if (this.session.value?.visit.value.head.id !== id) await this.#resume(id);
    return true;
  }

  /** Another screen opens: the ear is stopped, and the lists are made anew. */
  async close(): Promise<void> {
    if (!this.session.value) return;
    const { hearing, shelves } = this.#world;
    this.leftOpen.value = this.isWatched.value;
    hearing.listening.hush();
    await hearing.listening.stop();
    this.session.value?.leave();
    this.session.value = null;
    await hearing.clips.open(null);
    await shelves.list();
  }

  async #resume(id: string): Promise<void> {
    const { sessions, hearing, notices } = this.#world;
    // One that cannot be read is none that runs.
    this.leftOpen.value = false;
    const session = await sessions.atBoiler(id);
    await hearing.clips.open(id);
    batch(() => {
      this.session.value = session;
      notices.clear();
    });
  }
}
