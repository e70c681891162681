import { signal } from "@preact/signals";
import type { Ear } from "../../device/ears/ear.ts";
import { reasonOf } from "../../device/notebook/trouble.ts";
import type { Phrase } from "../../meaning/heard.ts";
import type { Session } from "../boiler/session.ts";
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
  /** What the key words do; null until it was loaded, with the first ear that listens while they are wanted. */
  readonly steering = signal<Steering | null>(null);
  readonly #trouble: (sentence: string) => void;
  readonly #steer: () => Promise<void>;
  readonly #world: HearingWorld;
  readonly #mind: LateMind;
  readonly #settings: () => Settings;

  constructor(
    world: HearingWorld,
    mind: LateMind,
    settings: () => Settings,
    heard: (phrase: Phrase) => void,
    session: () => Session | null,
    trouble: (sentence: string) => void,
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
    const { listening } = this;
    this.#steer = once(async () => {
      const wake = () => void this.listen();
      const { speaker, notebook } = world;
      const given = { listening, speaker, notebook, session, heard, wake, settings };
      this.steering.value = await world.ears.steering(given);
    });
    this.#trouble = trouble;
  }

  /** Starts the chosen ear, and stops those of other windows. */
  async listen(): Promise<void> {
    this.#world.otherEars.tell();
    await this.listening.start(() => this.ear("visit"));
    if (this.#settings().ear === "offline") this.clips.prepare();
    // Beside the ear: phrases are heard all the same, and the next time it is tried again.
    if (this.#settings().keyWords) this.#steer().catch(() => this.#trouble(NO_KEY_WORDS));
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

const NO_KEY_WORDS = "The key words could not be loaded: phrases are heard without them.";
