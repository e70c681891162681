import { signal } from "@preact/signals";
import type { Ear } from "../../device/ears/ear.ts";
import { reasonOf } from "../../device/notebook/trouble.ts";
import type { Phrase } from "../../meaning/heard.ts";
import type { Session } from "../boiler/session.ts";
import type { Spelling } from "../key-words/spelling.ts";
import type { KeyWordsState } from "../key-words/state.ts";
import type { Steering } from "../key-words/steering.ts";
import { once } from "../once.ts";
import { SETTINGS_KEY } from "../preferences.ts";
import type { Settings } from "../settings.ts";
import { Clips } from "../sound/clips.ts";
import type { Tongue } from "../sound/ears.ts";
import { isOn, Listening } from "../sound/listening.ts";
import type { World } from "../world.ts";
import type { LateMind } from "./late-mind.ts";

type HearingWorld = Pick<
  World,
  "speaker" | "otherEars" | "ears" | "notebook" | "clipEncoder" | "clipPlayer" | "installed" | "now"
>;

/** The ear of the visit, which of them it is, and the sound that is kept of it. */
export class Hearing {
  readonly listening: Listening;
  readonly clips: Clips;
  readonly keyWords = signal<KeyWordsState>({ kind: "off" });
  /** A value that is given figure by figure. */
  readonly spelling = signal<Spelling>({ kind: "off" });
  /** Loaded with the first ear that listens while key words are wanted. */
  readonly #steer: () => Promise<Steering>;
  #steering: Steering | null = null;
  readonly #world: HearingWorld;
  readonly #mind: LateMind;
  readonly #settings: () => Settings;

  constructor(
    world: HearingWorld,
    mind: LateMind,
    settings: () => Settings,
    heard: (phrase: Phrase) => void,
    session: () => Session | null,
  ) {
    this.#world = world;
    this.#mind = mind;
    this.#settings = settings;
    this.listening = new Listening(world.speaker, mind, heard, () => settings().headset);
    this.clips = new Clips({
      shelf: world.notebook.clips,
      encoder: world.clipEncoder,
      player: world.clipPlayer,
      settings,
      settingsKey: SETTINGS_KEY,
      now: world.now,
      sounds: (sounding) => this.listening.sounds("", sounding),
      reason: reasonOf,
    });
    this.#steer = once(async () => {
      this.#steering = await world.ears.steering({
        listening: this.listening,
        state: this.keyWords,
        spelling: this.spelling,
        session,
        hear: heard,
        wake: () => void this.listen(),
        tone: () => void world.speaker.speak("", "heard"),
        headset: () => settings().headset,
        isOn: () => settings().keyWords,
      });
      return this.#steering;
    });
  }

  /** Starts the chosen ear, and stops those of other windows. */
  async listen(): Promise<void> {
    this.#world.otherEars.tell();
    await this.listening.start(() => this.ear("visit"));
    if (this.#settings().ear === "offline") this.clips.prepare();
    if (this.#settings().keyWords) await this.#steer().catch(() => this.#notSteered());
  }

  /** The ear rests until it is woken, or stops where nobody would hear that. */
  async rest(): Promise<void> {
    await (this.keyWords.value.kind === "listening" ? this.listening.rest() : this.listening.stop());
  }

  /** The reading that is asked about is given figure by figure. */
  byFigures(): void {
    if (this.#steering?.begin() === false) void this.listening.say(NO_KEY_WORDS);
  }

  /** A tap while a value is given figure by figure. */
  tap(word: "yes" | "no" | "stop"): void {
    this.#steering?.tap(word);
  }

  /** A value that was being given figure by figure is given otherwise. */
  leaveFigures(): void {
    this.#steering?.leave();
  }

  #notSteered(): void {
    this.keyWords.value = {
      kind: "problem",
      message: "The key words could not be loaded; phrases are heard.",
    };
  }

  /** Another window listens now: heard by both, a phrase would be logged twice. */
  async giveWay(): Promise<void> {
    const { kind } = this.listening.state.value;
    if (!isOn(kind)) return;
    await this.listening.stop();
    this.listening.state.value = {
      kind: "problem",
      message: "Another window of Burnerside listens now: this one has stopped.",
    };
  }

  /** Starts the chosen ear, or stops it. */
  async switch(): Promise<void> {
    const { kind } = this.listening.state.value;
    await (isOn(kind) ? this.listening.stop() : this.listen());
  }

  /** The chosen ear, for what is said in a visit or on the start page. Rejects where it cannot be loaded. */
  async ear(of: Tongue): Promise<Ear> {
    const { ear, platformMaySend } = this.#settings();
    const { ears, installed } = this.#world;
    if (of === "visit") await this.#mind.load();
    return ear === "offline"
      ? ears.offline(of, (given) => installed.ahead.fetch("ear", given))
      : ears.platform(platformMaySend, of);
  }
}

const NO_KEY_WORDS = "Key words are not heard now: say it as a phrase, or type it.";
