import { signal } from "@preact/signals";
import type { Earcon } from "../../answer/earcon.ts";
import type { Gain } from "../../device/spotter/profile.ts";
import type { Spotter, SpotterEvent } from "../../device/spotter/spotter.ts";
import type { TeachOutcome } from "../../device/spotter/teaching.ts";
import type { VoiceProfile } from "../../device/spotter/voice-profile.ts";
import { capital } from "../../measure/capital.ts";
import type { ReadingPlan } from "./plan.ts";
import { beginReading, type Reading, type ReadingEvent, type Step, takeEvent } from "./reading.ts";
import type { Take } from "./take.ts";
import { endedWords, gainWords, NOTHING_KEPT } from "./wording.ts";

/** How far a teaching has come. */
export type TeachingState =
  | { readonly kind: "idle" }
  /** The microphone and the model are being readied. */
  | { readonly kind: "starting" }
  | { readonly kind: "reading"; readonly reading: Reading }
  /** 0 to 1. */
  | { readonly kind: "training"; readonly fraction: number }
  | { readonly kind: "done"; readonly name: string; readonly gain: Gain; readonly kept: boolean }
  /** Nothing was kept; one or two sentences say why. */
  | { readonly kind: "ended"; readonly sentence: string };

/** Whose voice is taught: somebody new, or one of the people again. */
export interface Pupil {
  readonly id: string;
  readonly name: string;
}

/** A training under way, as `startTeaching` gives it. */
export interface Training {
  /** Never rejects. */
  readonly outcome: Promise<TeachOutcome>;
  cancel(): void;
}

/** What teaching needs of the world. */
export interface TeachingWorld {
  /** The shipped model, which everybody is measured by. Rejects where it cannot be loaded. */
  readonly spotter: () => Promise<Spotter>;
  readonly plan: () => Promise<ReadingPlan>;
  readonly speak: (text: string, earcon?: Earcon) => Promise<void>;
  readonly hush: () => void;
  /** Rejects where what teaches cannot be loaded. */
  readonly train: (
    takes: readonly Take[],
    heldBack: readonly Take[],
    progress: (fraction: number) => void,
  ) => Promise<Training>;
  /** Rejects where it cannot be stored. */
  readonly keep: (profile: VoiceProfile) => Promise<void>;
  /** Word to other windows that the microphone is wanted here. */
  readonly tellOthers: () => void;
  /** ISO 8601 in UTC. */
  readonly now: () => string;
  /** The clock of the spotter's windows, ms. */
  readonly elapsedMs: () => number;
  readonly every: (ms: number, tick: () => void) => () => void;
  readonly chance: () => number;
  /** Why something failed, without a full stop. */
  readonly reason: (error: unknown) => string;
}

const TICK_MS = 250;
const LET_GO = "The microphone was let go.";

/**
 * Teaches one voice: the guided reading, the training, the figure on what was held back. The takes are in memory alone, and gone with the
 * end of it; a profile is kept as a whole, after all that, or not at all. Nothing here rejects.
 */
export class Teaching {
  readonly state = signal<TeachingState>({ kind: "idle" });
  readonly #world: TeachingWorld;
  #pupil: Pupil = { id: "", name: "" };
  /** Counts beginnings and ends, so that what comes late knows that it is stale. */
  #attempt = 0;
  /** Counts what was told, so that only the end of the last counts. */
  #telling = 0;
  /** While a profile is being stored there is nothing to cancel any more. */
  #storing = false;
  /** What has to be let go at the end. */
  #letGo: (() => void)[] = [];

  constructor(world: TeachingWorld) {
    this.#world = world;
  }

  /** Begins, on a tap; what was under way is ended. */
  async begin(pupil: Pupil): Promise<void> {
    this.#end({ kind: "starting" });
    const attempt = this.#attempt;
    this.#pupil = pupil;
    try {
      const [spotter, plan] = await Promise.all([this.#world.spotter(), this.#world.plan()]);
      if (attempt !== this.#attempt) return;
      this.#world.tellOthers();
      this.#letGo.push(() => void spotter.stop());
      await spotter.listen((event) => {
        if (attempt === this.#attempt) this.#heard(event, plan);
      });
    } catch (error) {
      if (attempt === this.#attempt)
        this.#endedBy(`Own voice could not be loaded: ${this.#world.reason(error)}.`);
    }
  }

  /** Ends it by a tap: nothing is kept. What is over stays. */
  cancel(): void {
    const { kind } = this.state.value;
    if (kind === "reading") this.#take({ kind: "cancel" });
    else if (kind === "starting" || (kind === "training" && !this.#storing)) this.#endedBy("Cancelled.");
  }

  /** The screen is left. */
  leave(): void {
    this.#world.hush();
    this.#end({ kind: "idle" });
  }

  /** Another window wants the microphone. */
  giveWay(): void {
    const { kind } = this.state.value;
    if (kind === "starting" || kind === "reading")
      this.#endedBy("Another window of Burnerside listens now: this one has stopped.");
  }

  #heard(event: SpotterEvent, plan: ReadingPlan): void {
    switch (event.kind) {
      case "listening":
        this.#begun(plan);
        return;
      case "window":
        this.#take(event);
        return;
      case "stopped":
        this.#lost(LET_GO);
        return;
      case "problem":
        this.#lost(event.message);
        return;
    }
  }

  #begun(plan: ReadingPlan): void {
    const { chance, elapsedMs, every } = this.#world;
    this.#step(beginReading(plan, chance, elapsedMs()));
    this.#letGo.push(every(TICK_MS, () => this.#take({ kind: "tick", at: elapsedMs() })));
  }

  #lost(message: string): void {
    if (this.state.value.kind === "reading") this.#take({ kind: "microphone", message });
    else this.#endedBy(message);
  }

  #take(event: ReadingEvent): void {
    const state = this.state.value;
    if (state.kind === "reading") this.#step(takeEvent(state.reading, event));
  }

  #step({ reading, tell }: Step): void {
    switch (reading.phase.kind) {
      case "ended": {
        const sentence = endedWords(reading.phase.ending);
        this.#world.hush();
        this.#end({ kind: "ended", sentence });
        if (tell) void this.#world.speak(tell.text);
        return;
      }
      case "read":
        return void this.#train(reading.takes);
      default:
        this.state.value = { kind: "reading", reading };
        if (tell) void this.#tell(tell.text, tell.tone);
    }
  }

  async #tell(text: string, tone: boolean): Promise<void> {
    this.#telling += 1;
    const telling = this.#telling;
    const { speak, elapsedMs } = this.#world;
    await speak(text);
    if (tone && telling === this.#telling) await speak("", "heard");
    if (telling === this.#telling) this.#take({ kind: "told", at: elapsedMs() });
  }

  async #train(all: readonly Take[]): Promise<void> {
    this.#end({ kind: "training", fraction: 0 });
    const attempt = this.#attempt;
    const { train, speak, reason } = this.#world;
    void speak("That was all. Now it learns.");
    try {
      const training = await train(
        all.filter(({ heldBack }) => !heldBack),
        all.filter(({ heldBack }) => heldBack),
        (fraction) => {
          if (attempt === this.#attempt) this.state.value = { kind: "training", fraction };
        },
      );
      if (attempt !== this.#attempt) return training.cancel();
      this.#letGo.push(() => training.cancel());
      const outcome = await training.outcome;
      if (attempt === this.#attempt) await this.#learned(outcome);
    } catch (error) {
      if (attempt === this.#attempt) this.#endedBy(`What teaches could not be loaded: ${reason(error)}.`);
    }
  }

  async #learned(outcome: TeachOutcome): Promise<void> {
    if (outcome.kind === "cancelled") return this.#endedBy("Cancelled.");
    if (outcome.kind === "failed") return this.#endedBy(`It could not be learned: ${outcome.reason}.`);
    const { taught, gain } = outcome;
    if (!gain) return this.#endedBy("It could not be learned: nothing was held back to measure it by.");
    const { id, name } = this.#pupil;
    const attempt = this.#attempt;
    // What is worse would be a harm that nobody sees.
    const kept = gain.rightAfter >= gain.rightBefore;
    this.#storing = true;
    try {
      const taughtAt = this.#world.now();
      if (kept) await this.#world.keep({ id, name, taughtAt, spotter: taught, gain, on: true });
    } catch (error) {
      if (attempt === this.#attempt)
        this.#endedBy(`${capital(`it could not be stored: ${this.#world.reason(error)}`)}.`);
      return;
    } finally {
      this.#storing = false;
    }
    // Left while it was being stored: it was read, learned and measured to its end, and stays.
    if (attempt !== this.#attempt) return;
    this.#end({ kind: "done", name, gain, kept });
    void this.#world.speak(gainWords(gain));
  }

  #endedBy(sentence: string): void {
    this.#end({ kind: "ended", sentence: `${sentence} ${NOTHING_KEPT}` });
  }

  /** Lets everything go and is in another state. */
  #end(state: TeachingState): void {
    this.#attempt += 1;
    this.#telling += 1;
    const letGo = this.#letGo;
    this.#letGo = [];
    for (const one of letGo) one();
    this.state.value = state;
  }
}
