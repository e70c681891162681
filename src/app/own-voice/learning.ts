import { signal } from "@preact/signals";
import { CLIP_RATE, type Clip } from "../../device/clips/clip.ts";
import type { Harm } from "../../device/ears/offline/adapt.ts";
import type { Adapted, Adapting, AdaptRequest } from "../../device/ears/offline/adapting.ts";
import { FEWEST_PHRASES, MOST_PHRASES } from "../../device/ears/offline/own-head.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { Gain } from "../../device/spotter/profile.ts";
import type { VoiceProfile } from "../../device/spotter/voice-profile.ts";
import type { EarLanguage } from "../../meaning/network.ts";
import { confirmedRows, decodedRows } from "./confirmed-clips.ts";
import { storedVoice } from "./stored.ts";

/** What the learning of phrases needs of the world. */
export interface LearningWorld {
  readonly notebook: Pick<Notebook, "visits" | "visit" | "clips" | "voices">;
  readonly decode: (clip: Clip) => Promise<Float32Array>;
  readonly language: () => Promise<EarLanguage>;
  readonly adapt: (request: AdaptRequest, progress: (fraction: number) => void) => Promise<Adapting>;
  /** Whether an ear listens now: it needs the device to itself. */
  readonly listens: () => boolean;
  /** Told when what is kept of voices has changed. */
  readonly changed: () => Promise<void>;
  /** ISO 8601 in UTC. */
  readonly now: () => string;
  /** Why something failed, without a full stop. */
  readonly reason: (error: unknown) => string;
}

export type LearningState =
  | { readonly kind: "idle" }
  | { readonly kind: "learning"; readonly fraction: number }
  /** `better`: it is kept, and used from the next start of the ear on. */
  | { readonly kind: "ended"; readonly better: boolean; readonly sentence: string };

const IDLE: LearningState = { kind: "idle" };

/**
 * The phrase recogniser learns how people of this device speak, from what they confirmed; what it learned is kept whole, and only where it
 * was better on what was held back. One at a time, never while the ear listens. Nothing here rejects.
 */
export class Learning {
  /** Whose it is: the id of a voice; null where it is nobody's. */
  readonly of = signal<string | null>(null);
  readonly state = signal<LearningState>(IDLE);
  readonly #world: LearningWorld;
  /** Counts beginnings and ends, so that what comes late knows that it is stale. */
  #attempt = 0;
  #running: Adapting | null = null;

  constructor(world: LearningWorld) {
    this.#world = world;
  }

  /** Learns, on a tap. */
  async learn(id: string): Promise<void> {
    if (this.#world.listens()) {
      this.#begin(id, { kind: "ended", better: false, sentence: LISTENS });
      return;
    }
    const attempt = this.#begin(id, { kind: "learning", fraction: 0 });
    await this.#try(attempt, async () => {
      const { notebook, decode, language, adapt } = this.#world;
      const rows = await confirmedRows(notebook, id, MOST_PHRASES);
      const clips = await decodedRows(rows, decode, CLIP_RATE);
      if (attempt !== this.#attempt) return;
      if (clips.length < FEWEST_PHRASES) return this.#end(false, tooFewWords(clips.length));
      const spoken = await language();
      if (attempt !== this.#attempt) return;
      const running = await adapt({ language: spoken, clips }, (fraction) => {
        if (attempt === this.#attempt) this.state.value = { kind: "learning", fraction };
      });
      if (attempt !== this.#attempt) return running.cancel();
      this.#running = running;
      const outcome = await running.outcome;
      if (attempt !== this.#attempt) return;
      this.#running = null;
      await this.#take(id, outcome);
    });
  }

  /** Nothing is kept. What is over stays. */
  cancel(): void {
    if (this.state.value.kind === "learning") this.#end(false, "Cancelled. Nothing was kept.");
  }

  /** The ear is to listen: the device is its own. */
  giveWay(): void {
    if (this.state.value.kind === "learning")
      this.#end(false, "Stopped, because the ear listens. Nothing was kept.");
  }

  /** Uses what was learned, or not. */
  switch(id: string, on: boolean): Promise<void> {
    return this.#change(id, ({ phones, ...voice }) =>
      phones ? { ...voice, phones: { ...phones, on } } : voice,
    );
  }

  /** What was learned of phrases goes; the key words stay taught. */
  async forget(id: string): Promise<void> {
    await this.#change(id, ({ phones: _, ...voice }) => voice);
    if (this.of.value === id) this.#begin(id, IDLE);
  }

  async #take(id: string, outcome: Adapted): Promise<void> {
    switch (outcome.kind) {
      case "cancelled":
        return;
      case "failed":
        return this.#end(false, `It could not learn: ${outcome.reason}.`);
      case "too-few":
        return this.#end(false, tooFewWords(outcome.found));
      case "no-better":
        return this.#end(false, noBetterWords(outcome.gain, outcome.because));
      case "better": {
        const { base, head, gain, phrases } = outcome;
        const phones = { base, head, gain, phrases, learnedAt: this.#world.now(), on: true };
        // Meanwhile the voice may have been deleted: then there is nobody to keep it of.
        const kept = await this.#kept(id, (voice) => ({ ...voice, phones }));
        return this.#end(
          kept,
          kept ? betterWords(gain) : "That voice is not here any more. Nothing was kept.",
        );
      }
    }
  }

  async #change(id: string, change: (voice: VoiceProfile) => VoiceProfile): Promise<void> {
    const attempt = this.#attempt;
    await this.#try(attempt, async () => {
      await this.#kept(id, change);
    });
  }

  async #kept(id: string, change: (voice: VoiceProfile) => VoiceProfile): Promise<boolean> {
    const { voices } = this.#world.notebook;
    const voice = storedVoice(await voices.get(id));
    if (!voice) return false;
    await voices.keep(change(voice));
    await this.#world.changed();
    return true;
  }

  #begin(id: string, state: LearningState): number {
    this.#letGo();
    this.of.value = id;
    this.state.value = state;
    return this.#attempt;
  }

  #end(better: boolean, sentence: string): void {
    this.#letGo();
    this.state.value = { kind: "ended", better, sentence };
  }

  #letGo(): void {
    this.#attempt += 1;
    this.#running?.cancel();
    this.#running = null;
  }

  async #try(attempt: number, work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      if (attempt === this.#attempt) this.#end(false, `It could not learn: ${this.#world.reason(error)}.`);
    }
  }
}

const LISTENS = "The ear listens: stop it first.";

export function tooFewWords(found: number): string {
  return `Not enough yet: ${found} of ${FEWEST_PHRASES} confirmed phrases.`;
}

function countsWords({ heldBack, rightBefore, rightAfter }: Gain): string {
  return `of ${heldBack} tries with phrases held back ${rightBefore} were right before, ${rightAfter} now`;
}

export function betterWords(gain: Gain): string {
  return `Better: ${countsWords(gain)}. It counts when the ear is started again.`;
}

const HARM: Readonly<Record<Exclude<Harm, "no-more-right">, string>> = {
  "fewer-without-noise": "fewer of those without added noise",
  "more-wrong": "more would be logged wrong",
  "talk-taken-for-words": "other talk would be taken for words",
};

function noBetterWords(gain: Gain, because: Harm): string {
  if (because === "no-more-right") return `Not better: ${countsWords(gain)}. Nothing was kept.`;
  return `More was right (${countsWords(gain)}), but ${HARM[because]}. Nothing was kept.`;
}
