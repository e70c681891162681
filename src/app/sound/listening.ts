import { signal } from "@preact/signals";
import type { Earcon } from "../../answer/earcon.ts";
import { spokenText } from "../../answer/spoken.ts";
import type { Ear, EarEvent } from "../../device/ears/ear.ts";
import type { Speaker } from "../../device/speaker.ts";
import type { Phrase, Utterance } from "../../meaning/heard.ts";

/** What the listening light shows. */
export type EarState =
  | { readonly kind: "off" }
  | { readonly kind: "loading"; readonly fraction: number }
  /** Loudness 0 to 1 (full scale); the probability of a voice 0 to 1, null where the engine does not know it. */
  | { readonly kind: "listening"; readonly loudness: number; readonly voice: number | null }
  /** The ear is stopped; the key words are listened for, and one of them wakes it. */
  | { readonly kind: "resting" }
  | { readonly kind: "problem"; readonly message: string };

/** Whether a microphone is open, or about to be. */
export function isOn(kind: EarState["kind"]): boolean {
  return kind === "listening" || kind === "loading" || kind === "resting";
}

/** What is made of the words that were heard. */
export interface Understanding {
  /** The phrase that an utterance is taken as; null where it was not for the log. */
  readonly choose: (utterance: Utterance) => Phrase | null;
  /** Whether a phrase only steers ("stop listening", "scratch that") or tells of a danger: it may interrupt the app's voice. */
  readonly steers: (text: string) => boolean;
}

/** Who hears the same beside the ear: of what both heard only one may count. */
export interface Beside {
  /** Whether a phrase is taken as the ear has it, null where it made none of it. */
  takes(phrase: Phrase | null, utterance: Utterance): boolean;
  /** How likely the ear hears a voice now, 0 to 1. */
  voice(probability: number): void;
}

/** Below this confidence nothing interrupts the app's voice: it might be its own echo. */
const INTERRUPTS = 0.9;

/**
 * The ear and the voice. What is heard over the app's own voice can interrupt it, and can never become a reading; unless
 * the voice is in a headset, where no microphone hears it: then what is said over it is taken in full, and cuts it off.
 */
export class Listening {
  readonly state = signal<EarState>({ kind: "off" });
  readonly speaking = signal(false);
  /** Counts what was heard and was not for the log, so that the screen can say so. */
  readonly ignored = signal(0);
  /** Null where nobody listens for key words. */
  beside: Beside | null = null;
  readonly #speaker: Speaker;
  readonly #heard: (phrase: Phrase) => void;
  readonly #understanding: Understanding;
  readonly #headset: () => boolean;
  #ear: Ear | null = null;
  /** What is being said, and what sounds beside (a kept clip: no words known). */
  #sounding: readonly string[] = [];
  /** The words of what sounded last: an utterance over it may end after it. */
  #own: ReadonlySet<string> = new Set();
  /** Counts starts and stops, so that a late load knows that it is stale. */
  #attempt = 0;

  /** @param headset whether the person wears a headset now: the app's voice does not sound in the microphone */
  constructor(
    speaker: Speaker,
    understanding: Understanding,
    heard: (phrase: Phrase) => void,
    headset: () => boolean,
  ) {
    this.#speaker = speaker;
    this.#understanding = understanding;
    this.#heard = heard;
    this.#headset = headset;
  }

  /** Loads an ear and starts it; the one before is stopped. */
  async start(load: () => Promise<Ear>): Promise<void> {
    await this.#release();
    this.#attempt += 1;
    const attempt = this.#attempt;
    this.state.value = { kind: "loading", fraction: 0 };
    try {
      const ear = await load();
      // Stopped again while it loaded.
      if (attempt !== this.#attempt) return;
      this.#ear = ear;
      await ear.listen((event) => {
        // A stopped ear may still have something to tell; it is no longer ours.
        if (this.#ear === ear) this.#on(event);
      });
      ear.voiceSounds(this.#soundsInMicrophone());
    } catch (error) {
      if (attempt !== this.#attempt) return;
      this.#ear = null;
      this.state.value = { kind: "problem", message: notLoaded(error) };
    }
  }

  async stop(): Promise<void> {
    const released = this.#release();
    this.state.value = { kind: "off" };
    await released;
  }

  /** Stops the ear and lets its microphone go; who listens for key words goes on. */
  async rest(): Promise<void> {
    const released = this.#release();
    this.state.value = { kind: "resting" };
    await released;
  }

  async #release(): Promise<void> {
    const ear = this.#ear;
    this.#attempt += 1;
    this.#ear = null;
    await ear?.stop();
  }

  /** Speaks, behind a tone; the ear knows until the last of several texts is over. */
  async say(text: string, earcon: Earcon = "none"): Promise<void> {
    const spoken = spokenText(text);
    await this.sounds(`${text} ${spoken}`, () => this.#speaker.speak(spoken, earcon));
  }

  /** Does what sounds aloud (`words`, where known): kept sound that is played must not be logged again. */
  async sounds(words: string, sounding: () => Promise<void>): Promise<void> {
    this.#sounding = [...this.#sounding, words];
    this.#own = new Set(this.#sounding.flatMap((text) => text.toLowerCase().match(/[a-z0-9']+/g) ?? []));
    this.#tellEar();
    try {
      await sounding();
    } finally {
      const at = this.#sounding.indexOf(words);
      this.#sounding = this.#sounding.filter((_, index) => index !== at);
      this.#tellEar();
    }
  }

  /** The words of what sounded last, in small letters. */
  get own(): ReadonlySet<string> {
    return this.#own;
  }

  /** Falls silent: what is being said is cut off. */
  hush(): void {
    this.#speaker.cancel();
  }

  #tellEar(): void {
    this.speaking.value = this.#sounding.length > 0;
    this.#ear?.voiceSounds(this.#soundsInMicrophone());
  }

  #soundsInMicrophone(): boolean {
    return this.speaking.value && !this.#headset();
  }

  #on(event: EarEvent): void {
    switch (event.kind) {
      case "loading":
        this.state.value = { kind: "loading", fraction: event.fraction };
        return;
      case "listening":
        this.state.value = { kind: "listening", loudness: 0, voice: null };
        return;
      case "level":
        this.state.value = { kind: "listening", loudness: event.loudness, voice: event.voice };
        this.beside?.voice(event.voice ?? 0);
        return;
      case "utterance":
        if (event.over) this.#interruption(event.utterance);
        else this.#utterance(event.utterance);
        return;
      case "stopped":
        this.#ear = null;
        this.state.value = { kind: "off" };
        return;
      case "problem":
        this.#ear = null;
        this.state.value = { kind: "problem", message: event.message };
        return;
    }
  }

  #utterance(utterance: Utterance): void {
    const phrase = this.#understanding.choose(utterance);
    if (!(this.beside?.takes(phrase, utterance) ?? true)) return;
    if (!phrase) {
      this.ignored.value += 1;
      return;
    }
    // Said over the voice in a headset: the answer to it comes now.
    if (this.speaking.value && this.#headset()) this.hush();
    this.#heard(phrase);
  }

  /** Only a clear word that steers or tells of a danger, and that is not in what the app itself is saying. */
  #interruption(utterance: Utterance): void {
    const phrase = this.#understanding.choose(utterance);
    if (!phrase || phrase.confidence < INTERRUPTS || !this.#understanding.steers(phrase.text)) return;
    if (phrase.text.split(" ").some((word) => this.#own.has(word))) return;
    if (!(this.beside?.takes(phrase, utterance) ?? true)) return;
    this.hush();
    this.#heard(phrase);
  }
}

/** What the browsers say of a module, or a file, that the network did not give. */
const NO_NETWORK =
  /dynamically imported module|importing a module script failed|failed to fetch|networkerror|load failed/i;

function notLoaded(error: unknown): string {
  const reason = error instanceof Error ? error.message : String(error);
  return NO_NETWORK.test(reason)
    ? "The recogniser is not on this device yet: fetch it in the settings while there is a network, or type."
    : `The recogniser could not be loaded: ${reason}`;
}
