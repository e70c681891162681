import { effect, type Signal, untracked } from "@preact/signals";
import { byFiguresOf, byFiguresSaid } from "../../answer/by-figures.ts";
import { createDetector, type KeyWordHeard } from "../../device/spotter/detect.ts";
import type { Spotter, SpotterWindow } from "../../device/spotter/spotter.ts";
import type { Phrase, Utterance } from "../../meaning/heard.ts";
import type { Session } from "../boiler/session.ts";
import type { Listening } from "../sound/listening.ts";
import { type ArbiterEvent, arbitrate, IDLE } from "./arbiter.ts";
import { failedTwice } from "./failed-twice.ts";
import { type Figure, isFigureWord, mayFollow } from "./figures.ts";
import { isPersons } from "./own-voice.ts";
import { spelledPhrase } from "./spelled-phrase.ts";
import { notLogged, type Spelling, type SpellingEvent, spell } from "./spelling.ts";
import { Spotting } from "./spotting.ts";
import type { KeyWordsState } from "./state.ts";
import { soundsAwake } from "./wake.ts";
import { isWanted, phraseFor } from "./wanted.ts";

/** What the key words steer, and by what. */
export interface SteeringWorld {
  readonly listening: Listening;
  readonly spotter: Spotter;
  /** The visit at the boiler; a signal is read in it. */
  readonly session: () => Session | null;
  /** Hands a phrase to the visit. */
  readonly hear: (phrase: Phrase) => void;
  /** Wakes the phrase recogniser. */
  readonly wake: () => void;
  /** A short tone. */
  readonly tone: () => void;
  /** Whether the app's voice does not sound in the microphone; a signal is read in it. */
  readonly headset: () => boolean;
  /** Whether key words are wanted; a signal is read in it. */
  readonly isOn: () => boolean;
  /** Milliseconds, of the windows' clock. */
  readonly elapsed: () => number;
  readonly state: Signal<KeyWordsState>;
  readonly spelling: Signal<Spelling>;
}

/** Our own caution: a question asked longer ago than this is answered in phrases only, or asked again, ms. */
const FRESH_MS = 30_000;
/** So long after a value was given figure by figure its words are still in a window, ms. */
const AFTER_MS = 1200;

/** From here on the ear hears a voice: as long a phrase lasts (src/device/ears/offline/endpoint.ts). */
const VOICED = 0.35;

const RESTS_DEAF = "Key words have stopped, and nothing would wake the recogniser: tap to listen.";

/** What the key words do: wake, answer and steer where phrases fail, and give a value figure by figure. */
export class Steering {
  readonly #world: SteeringWorld;
  readonly #spotting: Spotting;
  readonly #detector = createDetector();
  #arbiter = IDLE;
  #awake = 0;
  /** When the app's voice last ended, and when a value was last given figure by figure. */
  #voiceEnded = Number.NEGATIVE_INFINITY;
  #spelled = Number.NEGATIVE_INFINITY;
  /** The question for which figures were offered already. */
  #offered: string | null = null;

  constructor(world: SteeringWorld) {
    this.#world = world;
    const { listening, spotter, state, isOn, session } = world;
    this.#spotting = new Spotting(spotter, state, (window) => this.#window(window));
    listening.beside = {
      takes: (phrase, utterance) => this.#takes(phrase, utterance),
      voice: (probability) => this.#voice(probability),
    };
    effect(() => {
      const { kind } = listening.state.value;
      const on = isOn();
      untracked(() => this.#follow(kind, on));
    });
    effect(() => {
      if (state.value.kind === "problem" || state.value.kind === "off") untracked(() => this.#lost());
    });
    effect(() => {
      if (!listening.speaking.value) untracked(() => this.#fellSilent());
    });
    effect(() => {
      const open = session();
      void open?.visit.value;
      untracked(() => this.#offer(open));
    });
  }

  /** The reading that is asked about is given figure by figure. False where no key words are heard, or none is asked about. */
  begin(figures: readonly Figure[] = []): boolean {
    const session = this.#world.session();
    const asked = session && byFiguresOf(session.state.value);
    if (!asked || this.#world.state.value.kind !== "listening") return false;
    this.#arbiter = IDLE;
    this.#spell({ kind: "begin", asked, figures, at: this.#world.elapsed() });
    return true;
  }

  /** Leaves a value that is given figure by figure. */
  leave(): void {
    if (this.#spells()) this.#spell({ kind: "leave" });
  }

  /** A tap in place of a word. */
  tap(word: "yes" | "no" | "stop"): void {
    const at = this.#world.elapsed();
    this.#world.listening.hush();
    this.#spell({ kind: "word", word, confidence: 1, at });
  }

  /** The spotter goes with the ear: on with it, through its rest and its waking, and off with it. */
  #follow(kind: Listening["state"]["value"]["kind"], on: boolean): void {
    switch (kind) {
      case "listening":
        if (on) this.#spotting.start();
        else this.#spotting.stop();
        return;
      case "loading":
      case "resting":
        if (!on) this.#spotting.stop();
        return;
      case "off":
      case "problem":
        this.#spotting.stop();
        return;
    }
  }

  /** Nobody listens for key words any more. */
  #lost(): void {
    const { listening, state } = this.#world;
    this.#arbiter = IDLE;
    this.leave();
    if (listening.state.value.kind !== "resting") return;
    const message = state.value.kind === "problem" ? state.value.message : RESTS_DEAF;
    listening.state.value = { kind: "problem", message };
  }

  #fellSilent(): void {
    const at = this.#world.elapsed();
    this.#voiceEnded = at;
    if (this.#spells()) this.#spell({ kind: "said", at });
  }

  #window(window: SpotterWindow): void {
    const { listening } = this.#world;
    const heard = this.#detector.take(window);
    switch (listening.state.value.kind) {
      case "resting":
        this.#rest(window);
        return;
      case "listening":
        if (heard) this.#word(heard);
        this.#time(window.at);
        return;
      case "loading":
      case "off":
      case "problem":
        return;
    }
  }

  #rest({ scores, at }: SpotterWindow): void {
    this.#awake = soundsAwake(scores) && isPersons("mark", at, this.#own()) ? this.#awake + 1 : 0;
    if (this.#awake < 2) return;
    this.#awake = 0;
    this.#world.tone();
    this.#world.wake();
  }

  #word(heard: KeyWordHeard): void {
    const { word, chance: confidence, at } = heard;
    if (!isPersons(word, at, this.#own())) return;
    const session = this.#world.session();
    if (this.#spells()) {
      if (word === "no" || word === "again" || word === "stop") this.#world.listening.hush();
      this.#spell({ kind: "word", word, confidence, at });
    } else if (session && at - this.#spelled >= AFTER_MS && isWanted(word, session.state.value)) {
      if (isSteering(word) || this.#isFresh(at)) this.#judge({ kind: "word", heard });
    }
  }

  /** Windows come five times a second: they are the clock. */
  #time(at: number): void {
    if (!this.#spells()) this.#judge({ kind: "time", at });
    else if (!this.#world.listening.speaking.value) this.#spell({ kind: "time", at });
  }

  #judge(event: ArbiterEvent): boolean {
    const { arbiter, counts, takes } = arbitrate(this.#arbiter, event);
    this.#arbiter = arbiter;
    if (counts.length > 0) this.#count(counts);
    return takes;
  }

  #count(counts: readonly KeyWordHeard[]): void {
    const figures: Figure[] = [];
    for (const { word, chance } of counts) {
      if (isFigureWord(word) && mayFollow(figures, word)) figures.push({ word, confidence: chance });
    }
    // A number is not logged before it was read back.
    if (figures.length > 0) {
      this.begin(figures);
      return;
    }
    // "Yes", and "no" behind it: nobody knows which. To be left alone goes first.
    const word = (counts.find((one) => one.word === "stop") ?? counts[0])?.word;
    const same = counts.filter((one) => one.word === word);
    const text = word && phraseFor(word);
    if (!text || (word !== "stop" && same.length < counts.length)) return;
    this.#world.listening.hush();
    const confidence = Math.max(...same.map(({ chance }) => chance));
    this.#world.hear({ text, engine: "key-words", confidence, sound: null });
  }

  #takes(phrase: Phrase | null, { audioSeconds, computeSeconds }: Utterance): boolean {
    const at = this.#world.elapsed();
    const session = this.#world.session();
    const weighed = phrase && session?.weigh(phrase);
    if (this.#spells()) {
      if (!weighed?.isUrgent) return false;
      this.leave();
      return true;
    }
    const began = at - 1000 * (audioSeconds + computeSeconds);
    if (began < this.#spelled && weighed?.standsAlone !== true) return false;
    const { weight = "nothing", standsAlone = false } = weighed ?? {};
    return this.#judge({ kind: "phrase", weight, standsAlone, began, at });
  }

  #voice(probability: number): void {
    // Over the app's own voice there is always one.
    if (probability < VOICED || this.#own().speaking) return;
    this.#judge({ kind: "voice", at: this.#world.elapsed() });
  }

  #spells(): boolean {
    return this.#world.spelling.value.kind !== "off";
  }

  #spell(event: SpellingEvent): void {
    const { spelling, hear, tone, listening, elapsed, session } = this.#world;
    const { spelling: next, deed } = spell(spelling.value, event);
    if (spelling.value.kind !== "off" && next.kind === "off") this.#spelled = elapsed();
    spelling.value = next;
    switch (deed.kind) {
      case "none":
        return;
      case "tone":
        tone();
        return;
      case "say":
        void listening.say(deed.text);
        return;
      case "log": {
        const phrase = spelledPhrase(deed.asked, deed.figures);
        if (session()?.weigh(phrase).isReading !== true) void listening.say(notLogged(deed.asked));
        else hear(phrase);
        return;
      }
    }
  }

  /** Where the phrases failed twice, figures are asked for. */
  #offer(session: Session | null): void {
    if (!session || this.#spells() || this.#world.state.value.kind !== "listening") return;
    const state = session.state.value;
    const id = state.questions.at(-1)?.id ?? null;
    if (id === null || id === this.#offered || !failedTwice(session.visit.value, state)) return;
    this.#offered = id;
    // Behind the answer of the phrase, which is being put together.
    void Promise.resolve().then(() => {
      if (this.begin()) void this.#world.listening.say(byFiguresSaid(session.state.value));
    });
  }

  #isFresh(at: number): boolean {
    return this.#world.listening.speaking.value || at - this.#voiceEnded < FRESH_MS;
  }

  #own() {
    const { listening, headset } = this.#world;
    const isInEar = headset();
    return {
      speaking: listening.speaking.value && !isInEar,
      endedAt: isInEar ? Number.NEGATIVE_INFINITY : this.#voiceEnded,
      words: listening.own,
    };
  }
}

function isSteering(word: KeyWordHeard["word"]): boolean {
  return word === "stop" || word === "next" || word === "again";
}
