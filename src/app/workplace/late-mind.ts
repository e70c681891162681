import type { Phrase, Utterance } from "../../meaning/heard.ts";
import type { Mind } from "../mind.ts";
import type { Understanding } from "../sound/listening.ts";

/** The mind, loaded when something is first to be understood; until then nothing that is heard means anything. */
export class LateMind implements Understanding {
  /** Null until it was loaded. */
  loaded: Mind | null = null;
  readonly #load: () => Promise<Mind>;

  /** @param load gives the same mind each time */
  constructor(load: () => Promise<Mind>) {
    this.#load = load;
  }

  /** Rejects where it cannot be loaded; the next call tries again. */
  async load(): Promise<Mind> {
    this.loaded = await this.#load();
    return this.loaded;
  }

  choose(utterance: Utterance): Phrase | null {
    return this.loaded?.choose(utterance) ?? null;
  }

  steers(text: string): boolean {
    return this.loaded?.steers(text) ?? false;
  }
}
