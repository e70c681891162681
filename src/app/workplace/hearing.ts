import type { Ear } from "../../device/ears/ear.ts";
import { reasonOf } from "../../device/notebook/trouble.ts";
import type { Phrase } from "../../meaning/heard.ts";
import { SETTINGS_KEY } from "../preferences.ts";
import type { Settings } from "../settings.ts";
import { Clips } from "../sound/clips.ts";
import type { Tongue } from "../sound/ears.ts";
import { Listening } from "../sound/listening.ts";
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
  readonly #world: HearingWorld;
  readonly #mind: LateMind;
  readonly #settings: () => Settings;

  constructor(
    world: HearingWorld,
    mind: LateMind,
    settings: () => Settings,
    heard: (phrase: Phrase) => void,
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
  }

  /** Starts the chosen ear, and stops those of other windows. */
  async listen(): Promise<void> {
    this.#world.otherEars.tell();
    await this.listening.start(() => this.ear("visit"));
    if (this.#settings().ear === "offline") this.clips.prepare();
  }

  /** Another window listens now: heard by both, a phrase would be logged twice. */
  async giveWay(): Promise<void> {
    const { kind } = this.listening.state.value;
    if (kind !== "listening" && kind !== "loading") return;
    await this.listening.stop();
    this.listening.state.value = {
      kind: "problem",
      message: "Another window of Burnerside listens now: this one has stopped.",
    };
  }

  /** Starts the chosen ear, or stops it. */
  async switch(): Promise<void> {
    const { kind } = this.listening.state.value;
    await (kind === "listening" || kind === "loading" ? this.listening.stop() : this.listen());
  }

  /** The chosen ear, for what is said in a visit or on the start page. Rejects where it cannot be loaded. */
  async ear(of: Tongue): Promise<Ear> {
    const { ear, platformMaySend, speaker } = this.#settings();
    const { ears, installed, notebook } = this.#world;
    if (of === "visit") await this.#mind.load();
    return ear === "offline"
      ? ears.offline(
          of,
          (given) => installed.ahead.fetch("ear", given),
          async () => {
            if (speaker === null) return null;
            const { activePhones } = await import("../own-voice/active-voice.ts");
            return activePhones(notebook, speaker);
          },
        )
      : ears.platform(platformMaySend, of);
  }
}
