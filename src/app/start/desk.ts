import { batch, computed, signal } from "@preact/signals";
import type { Ear } from "../../device/ears/ear.ts";
import type { Speaker } from "../../device/speaker.ts";
import type { Phrase, Utterance } from "../../meaning/heard.ts";
import type { StartMeaning } from "../../meaning/start.ts";
import type { Fuel } from "../../measure/firing.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { VisitNames } from "../record/given-details.ts";
import type { SheetRow } from "../sheets/order.ts";
import { Listening } from "../sound/listening.ts";
import { firstChoice, missing, renewed, type StartChoice, takeSentence, withSheet } from "./choice.ts";

/** What choosing a visit needs of the world. */
export interface DeskWorld {
  readonly speaker: Speaker;
  readonly rows: () => readonly SheetRow[];
  readonly means: (text: string) => StartMeaning;
  readonly choose: (utterance: Utterance) => Phrase | null;
  readonly headset: () => boolean;
  readonly ear: () => Promise<Ear>;
  /** Starts the visit. `heard`: by voice, so that the ear goes on at the boiler. Never rejects. */
  readonly start: (choice: StartChoice, names: VisitNames, heard: boolean) => Promise<void>;
}

/** A sentence as it came in, and what was answered. */
export interface Said {
  readonly text: string;
  readonly answer: string;
}

/** Below this confidence what was heard is shown, and asked about before it is acted upon; as readings are. */
const SURE = 0.85;

/** The start page's choice of sheet and gas: by taps, by a typed sentence, or by voice. */
export class StartDesk {
  readonly choice = computed(() => renewed(this.#picked.value, this.#world.rows()));
  /** The place or appliance. */
  readonly title = signal("");
  /** The appliance's serial or plant number, and where it stands, for the record. */
  readonly appliance = signal("");
  readonly site = signal("");
  readonly said = signal<Said | null>(null);
  readonly missing = computed(() => missing(this.choice.value));
  readonly listening: Listening;
  readonly #picked = signal<StartChoice>({ sheet: null, fuel: null });
  readonly #world: DeskWorld;

  constructor(world: DeskWorld) {
    this.#world = world;
    const { speaker, choose, headset } = world;
    this.listening = new Listening(
      speaker,
      { choose, steers: () => false },
      (phrase) => void this.#take(phrase.text, phrase.confidence >= SURE, true),
      headset,
    );
  }

  /** Nothing chosen but what goes without saying. */
  reset(): void {
    batch(() => {
      this.#picked.value = firstChoice(this.#world.rows());
      this.title.value = "";
      this.appliance.value = "";
      this.site.value = "";
      this.said.value = null;
    });
  }

  pick(sheet: Sheet | "none"): void {
    this.#picked.value = withSheet(sheet);
  }

  pickFuel(fuel: Fuel): void {
    this.#picked.value = { ...this.choice.value, fuel };
  }

  /** Starts with what is chosen; nothing where something is missing. */
  async go(heard = false): Promise<void> {
    if (this.missing.value !== null) return;
    await this.listening.stop();
    const names = {
      title: this.title.value.trim(),
      appliance: this.appliance.value,
      place: this.site.value,
    };
    await this.#world.start(this.choice.value, names, heard);
  }

  /** Takes a typed sentence. */
  async type(text: string): Promise<void> {
    await this.#take(text, true, false);
  }

  async switchEar(): Promise<void> {
    const { kind } = this.listening.state.value;
    await (kind === "listening" || kind === "loading"
      ? this.listening.stop()
      : this.listening.start(this.#world.ear));
  }

  /** Leaves the page. */
  async leave(): Promise<void> {
    this.listening.hush();
    await this.listening.stop();
  }

  async #take(text: string, sure: boolean, heard: boolean): Promise<void> {
    const step = takeSentence(this.choice.value, this.#world.rows(), this.#world.means(text), sure);
    batch(() => {
      this.#picked.value = step.choice;
      this.said.value = { text, answer: step.answer };
    });
    if (step.starts) await this.go(heard);
    else if (heard) await this.listening.say(step.answer);
  }
}
