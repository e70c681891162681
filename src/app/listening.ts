import { signal } from "@preact/signals";
import type { Earcon } from "../answer/earcon.ts";
import { spokenText } from "../answer/spoken.ts";
import type { Ear, EarEvent } from "../device/ears/ear.ts";
import type { Speaker } from "../device/speaker.ts";
import type { Phrase, Utterance } from "../meaning/heard.ts";

/** What the listening light shows. */
export type EarState =
  | { readonly kind: "off" }
  | { readonly kind: "loading"; readonly fraction: number }
  | { readonly kind: "listening"; readonly loudness: number }
  | { readonly kind: "problem"; readonly message: string };

/** The ear and the voice, which must not hear each other: while the app speaks, the ear is deaf. */
export class Listening {
  readonly state = signal<EarState>({ kind: "off" });
  readonly speaking = signal(false);
  /** Counts what was heard and was not for the log, so that the screen can say so. */
  readonly ignored = signal(0);
  readonly #speaker: Speaker;
  readonly #heard: (phrase: Phrase) => void;
  #ear: Ear | null = null;
  #voices = 0;
  /** Counts starts and stops, so that a late load knows that it is stale. */
  #attempt = 0;

  constructor(speaker: Speaker, heard: (phrase: Phrase) => void) {
    this.#speaker = speaker;
    this.#heard = heard;
  }

  /** Loads an ear and starts it; the one before is stopped. */
  async start(load: () => Promise<Ear>): Promise<void> {
    await this.stop();
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
      ear.deafen(this.speaking.value);
    } catch (error) {
      if (attempt !== this.#attempt) return;
      this.#ear = null;
      const reason = error instanceof Error ? error.message : String(error);
      this.state.value = { kind: "problem", message: `The recogniser could not be loaded: ${reason}` };
    }
  }

  async stop(): Promise<void> {
    const ear = this.#ear;
    this.#attempt += 1;
    this.#ear = null;
    this.state.value = { kind: "off" };
    await ear?.stop();
  }

  /** Speaks, behind a tone, with the ear deaf until the last of several texts is over. */
  async say(text: string, earcon: Earcon = "none"): Promise<void> {
    this.#voices += 1;
    this.#deafen();
    await this.#speaker.speak(spokenText(text), earcon);
    this.#voices -= 1;
    this.#deafen();
  }

  /** Falls silent: what is being said is cut off. */
  hush(): void {
    this.#speaker.cancel();
  }

  #deafen(): void {
    this.speaking.value = this.#voices > 0;
    this.#ear?.deafen(this.speaking.value);
  }

  #on(event: EarEvent): void {
    switch (event.kind) {
      case "loading":
        this.state.value = { kind: "loading", fraction: event.fraction };
        return;
      case "listening":
        this.state.value = { kind: "listening", loudness: 0 };
        return;
      case "level":
        this.state.value = { kind: "listening", loudness: event.loudness };
        return;
      case "utterance":
        this.#utterance(event.utterance);
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
    const phrase = phraseOf(utterance);
    if (phrase) this.#heard(phrase);
    else this.ignored.value += 1;
  }
}

/** The best hypothesis as a phrase; null where it was not speech for the log. */
export function phraseOf({ engine, hypotheses, rejected }: Utterance): Phrase | null {
  const best = hypotheses[0];
  if (rejected || !best || best.words.length === 0) return null;
  return { text: best.words.map((word) => word.word).join(" "), engine, confidence: best.confidence };
}
