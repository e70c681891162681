import { batch, effect, signal } from "@preact/signals";
import type { Ear } from "../../device/ears/ear.ts";
import type { Speaker } from "../../device/speaker.ts";
import type { Phrase } from "../../meaning/heard.ts";
import { startState } from "../../visit/fold.ts";
import type { Visit } from "../../visit/visit.ts";
import type { HeardPhrase } from "../boiler/heard-phrase.ts";
import { logLines } from "../boiler/log-lines.ts";
import type { Mind } from "../mind.ts";
import { Listening } from "../sound/listening.ts";
import { type SoundLevel, soundLevel } from "./sound-level.ts";

/** The sentence that the check asks for. */
export const CHECK_SENTENCE = "high fire CO2 nine point two";

/** What the check needs of the world. */
export interface CheckWorld {
  readonly speaker: Speaker;
  /** What understands and answers; there once the ear is. */
  readonly mind: () => Pick<Mind, "choose" | "understand" | "take"> | null;
  readonly now: () => string;
  readonly ear: () => Promise<Ear>;
}

/** What was heard of the person, and what a visit would have made of it. */
export interface CheckHeard extends Pick<HeardPhrase, "text" | "stretches"> {
  readonly understood: readonly string[];
}

/** How it went: nothing heard yet, the sentence, something else, or a voice in which there were no words for the log. */
export type CheckResult = "none" | "works" | "other" | "no-words";

/** Above this probability somebody speaks. */
const SPEAKS = 0.5;
/** Levels come five times a second: this many are two seconds. */
const RECENT = 10;
/** So many levels without a voice, and something is wrong: ten seconds. */
const LONG_SILENCE = 50;

/** The microphone check: opens the ear, shows the level, and hears one sentence. Nothing is stored. */
export class MicrophoneCheck {
  readonly listening: Listening;
  readonly result = signal<CheckResult>("none");
  readonly heard = signal<CheckHeard | null>(null);
  /** How loud the voice was in the last seconds; null while nobody speaks. */
  readonly level = signal<SoundLevel | null>(null);
  /** Nobody was heard for long. */
  readonly silent = signal(false);
  readonly #world: CheckWorld;
  #recent: readonly number[] = [];
  #quietFor = 0;

  constructor(world: CheckWorld) {
    this.#world = world;
    this.listening = new Listening(
      world.speaker,
      { choose: (utterance) => world.mind()?.choose(utterance) ?? null, steers: () => false },
      (phrase) => void this.#take(phrase),
      () => false,
    );
    effect(() => {
      const state = this.listening.state.value;
      if (state.kind === "listening") this.#measure(state.loudness, state.voice);
    });
    effect(() => {
      if (this.listening.ignored.value > 0) this.result.value = "no-words";
    });
  }

  /** Opens the microphone, on the person's tap. */
  async begin(): Promise<void> {
    this.#recent = [];
    this.#quietFor = 0;
    this.listening.ignored.value = 0;
    batch(() => {
      this.result.value = "none";
      this.heard.value = null;
      this.level.value = null;
      this.silent.value = false;
    });
    await this.listening.start(this.#world.ear);
  }

  /** Lets the microphone go. */
  async end(): Promise<void> {
    await this.listening.stop();
  }

  #measure(loudness: number, voice: number | null): void {
    // An engine that does not know it says nothing of silence either.
    if (voice === null) return;
    const speaks = voice >= SPEAKS;
    this.#recent = [...this.#recent, speaks ? loudness : 0].slice(-RECENT);
    this.#quietFor = speaks ? 0 : this.#quietFor + 1;
    const peak = Math.max(...this.#recent);
    this.level.value = peak > 0 ? soundLevel(peak) : null;
    this.silent.value = this.#quietFor >= LONG_SILENCE;
  }

  #take(phrase: Phrase): void {
    const mind = this.#world.mind();
    if (!mind) return;
    const visit = this.#emptyVisit();
    // As a visit would take it; nothing is stored.
    const { visit: after } = mind.take(visit, phrase, this.#world.now(), "normal", []);
    const works = after.entries.some(
      ({ body }) =>
        body.kind === "reading" && body.quantity === "co2" && body.value === 9.2 && body.firing === "high",
    );
    batch(() => {
      this.heard.value = {
        text: phrase.text,
        stretches: mind.understand(phrase.text, startState(visit.head)),
        understood: logLines(after, new Set()).map(({ understood }) => understood),
      };
      this.result.value = works ? "works" : "other";
    });
    if (works) void this.end();
  }

  #emptyVisit(): Visit {
    return {
      format: "burnerside-visit/1",
      head: {
        id: "microphone-check",
        title: "",
        startedAt: this.#world.now(),
        zone: null,
        fuel: "natural-gas",
        units: "us",
        sheet: null,
      },
      entries: [],
    };
  }
}
