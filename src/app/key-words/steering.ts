import { computed, effect, type ReadonlySignal, signal, untracked } from "@preact/signals";
import type { ComponentType } from "preact";
import { byFiguresOf, byFiguresSaid } from "../../answer/by-figures.ts";
import { createCommands } from "../../device/spotter/commands.ts";
import type { KeyWordHeard } from "../../device/spotter/detect.ts";
import type { SpotterWindow } from "../../device/spotter/spotter.ts";
import type { Phrase, Utterance } from "../../meaning/heard.ts";
import type { QuantityId } from "../../measure/quantity.ts";
import type { Session } from "../boiler/session.ts";
import type { EarState } from "../sound/listening.ts";
import type { Workplace } from "../workplace.ts";
import { Answers } from "./answers.ts";
import { quantityAsked } from "./asked.ts";
import { countedOf } from "./counted.ts";
import { failedTwice } from "./failed-twice.ts";
import { type Figure, isFigureWord } from "./figures.ts";
import { isPersons } from "./own-voice.ts";
import { spelledPhrase } from "./spelled-phrase.ts";
import { notLogged, OFF, type Spelling, type SpellingEvent, spell } from "./spelling.ts";
import { type KeyWordsState, Spotting } from "./spotting.ts";
import type { SteeringWorld } from "./steering-world.ts";
import { isSteering, isWanted, phraseFor, WAKE_WORD } from "./wanted.ts";
import { NOTHING, type Weighed, weighed } from "./weighed.ts";
import { DEAF, RESTS, RESTS_DEAF } from "./wording.ts";

/** What is shown at the boiler of what the key words do. */
export type SteeringPart = ComponentType<{
  readonly workplace: Workplace;
  readonly session: Session;
  readonly steering: Steering;
}>;

/** Our own caution: a question asked longer ago than this is answered in phrases only, or asked again, ms. */
const FRESH_MS = 30_000;
/** So long after a value was given figure by figure its words are still in a window, ms. */
const AFTER_MS = 1200;

/** So long after the app's voice it is still in the windows, and no quiet around a word is asked for, ms. */
const OPEN_MS = 2000;

/** From here on the ear hears a voice: as long a phrase lasts (src/device/ears/offline/endpoint.ts). */
const VOICED = 0.35;

/** What the key words do: wake, answer and steer where phrases fail, and give a value figure by figure. */
export class Steering {
  readonly Part: SteeringPart;
  readonly state: ReadonlySignal<KeyWordsState>;
  /** A value that is given figure by figure. */
  readonly spelling = signal<Spelling>(OFF);
  readonly #world: SteeringWorld;
  readonly #spotting: Spotting;
  readonly #commands = createCommands();
  readonly #answers: Answers;
  /** When the app's voice last ended, and when a value was last given figure by figure. */
  #voiceEnded = Number.NEGATIVE_INFINITY;
  #spelled = Number.NEGATIVE_INFINITY;
  /** Of which reading a key word settled what was asked last, and when it was heard. */
  #settled: { readonly quantity: QuantityId; readonly at: number } | null = null;
  /** The question for which figures were offered already. */
  #offered: string | null = null;

  /** @param Part what is shown of it at the boiler */
  constructor(world: SteeringWorld, Part: SteeringPart) {
    this.#world = world;
    this.Part = Part;
    const { listening, spotter, settings, session } = world;
    this.#spotting = new Spotting(spotter, (window) => this.#window(window));
    this.state = this.#spotting.state;
    this.#answers = new Answers(session, (counts) => this.#count(counts));
    listening.beside = {
      takes: (phrase, utterance) => this.#takes(phrase, utterance),
      voice: (probability) => this.#voice(probability),
    };
    // Not with each of its levels: what has failed is tried again when the ear is started again.
    const ear = computed(() => listening.state.value.kind);
    const wanted = computed(() => settings().keyWords);
    effect(() => {
      const [kind, on] = [ear.value, wanted.value];
      untracked(() => this.#follow(kind, on));
    });
    effect(() => {
      const { kind } = this.state.value;
      if (kind === "problem" || kind === "off") untracked(() => this.#lost());
    });
    effect(() => {
      if (!listening.speaking.value) untracked(() => this.#fellSilent());
    });
    effect(() => {
      const open = session();
      // Once nothing is being taken: what answers the phrase is said before figures are asked for.
      if (open?.pending.value === 0) untracked(() => this.#offer(open));
    });
  }

  /** The ear rests until it is woken, or stops where nobody would hear that. */
  async rest(): Promise<void> {
    const { listening } = this.#world;
    if (this.state.value.kind !== "listening") return listening.stop();
    await listening.rest();
    void listening.say(RESTS);
  }

  /** The reading that is asked about is given figure by figure. False, and told, where no key words are heard, or none is asked about. */
  begin(figures: readonly Figure[] = []): boolean {
    const session = this.#world.session();
    const asked = session && byFiguresOf(session.state.value);
    if (!asked) return false;
    if (!this.#hears()) {
      this.#tell(DEAF);
      return false;
    }
    this.#answers.forget();
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
  #follow(kind: EarState["kind"], on: boolean): void {
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
    const { listening } = this.#world;
    const state = this.state.value;
    const spelling = this.spelling.value;
    const ear = listening.state.value.kind;
    this.#answers.forget();
    this.leave();
    // Who gives figures looks at the boiler, not at the screen.
    if (spelling.kind !== "off") {
      if (ear === "listening") this.#tell(`${notLogged(spelling.asked)} ${DEAF}`);
      else this.#show(notLogged(spelling.asked));
    }
    if (ear !== "resting") return;
    const message = state.kind === "problem" ? state.message : RESTS_DEAF;
    listening.state.value = { kind: "problem", message };
  }

  #fellSilent(): void {
    const at = this.#world.elapsed();
    this.#voiceEnded = at;
    if (this.#spells()) this.#spell({ kind: "said", at });
  }

  #window(window: SpotterWindow): void {
    const { listening } = this.#world;
    const own = this.#own();
    const { heard, alone } = this.#commands.take(window, own.speaking || window.at - own.endedAt < OPEN_MS);
    switch (listening.state.value.kind) {
      case "resting":
        if (alone?.word !== WAKE_WORD || !isPersons(alone.word, alone.at, own)) return;
        this.#tone();
        this.#world.wake();
        return;
      case "listening":
        if (heard) this.#word(heard.word, heard.begins);
        if (alone && isSteering(alone.word)) this.#steer(alone);
        this.#time(window.at);
        return;
      case "loading":
      case "off":
      case "problem":
        return;
    }
  }

  /** What answers. A figure is read back, so that the talk before it does no harm; the "yes" that logs it must not be of a talk. */
  #word(heard: KeyWordHeard, begins: boolean): void {
    const { word, chance: confidence, at } = heard;
    if (!isPersons(word, at, this.#own())) return;
    if (this.#spells()) {
      if (word === "yes" && !begins) return;
      if (word === "no" || word === "again" || word === "stop") this.#world.listening.hush();
      this.#spell({ kind: "word", word, confidence, at });
    } else if (!isSteering(word) && (begins || this.#isPartOf(word)) && this.#isFresh(at)) {
      this.#offerWord(heard);
    }
  }

  /** A number's word, or one behind another that waits: "yes, no". */
  #isPartOf(word: KeyWordHeard["word"]): boolean {
    return isFigureWord(word) || this.#answers.isWaiting;
  }

  /** What steers, whatever is asked. */
  #steer(heard: KeyWordHeard): void {
    if (!this.#spells() && isPersons(heard.word, heard.at, this.#own())) this.#offerWord(heard);
  }

  #offerWord(heard: KeyWordHeard): void {
    const session = this.#world.session();
    if (!session || heard.at - this.#spelled < AFTER_MS || !isWanted(heard.word, session.state.value)) return;
    this.#answers.judge({ kind: "word", heard });
  }

  /** Windows come five times a second: they are the clock. */
  #time(at: number): void {
    if (!this.#spells()) this.#answers.judge({ kind: "time", at });
    else if (!this.#world.listening.speaking.value) this.#spell({ kind: "time", at });
  }

  #count(counts: readonly KeyWordHeard[]): void {
    const counted = countedOf(counts);
    if (counted.kind === "figures") this.begin(counted.figures);
    if (counted.kind !== "word") return;
    const { word, chance: confidence } = counted.heard;
    const text = phraseFor(word);
    if (text === null) return;
    this.#world.listening.hush();
    if (word === "yes") this.#settles(counts.at(-1)?.at ?? 0);
    this.#world.heard({ text, engine: "key-words", confidence, sound: null });
  }

  #takes(phrase: Phrase | null, { audioSeconds, computeSeconds }: Utterance): boolean {
    const at = this.#world.elapsed();
    const session = this.#world.session();
    const weight = phrase && session ? this.#weighed(session, phrase) : NOTHING;
    if (weight.isUrgent) {
      this.leave();
      this.#answers.taken(at);
      return true;
    }
    if (this.#spells()) return false;
    const began = at - 1000 * (audioSeconds + computeSeconds);
    // A reading that was begun before it was settled by key words would be logged twice.
    const settled = this.#settled;
    if (settled && began < settled.at && weight.quantities.includes(settled.quantity)) return false;
    if (began < this.#spelled && !weight.standsAlone) return false;
    return this.#answers.judge({ kind: "phrase", ...weight, began, at });
  }

  #voice(probability: number): void {
    // Over the app's own voice there is always one.
    if (probability < VOICED || this.#own().speaking) return;
    this.#answers.judge({ kind: "voice", at: this.#world.elapsed() });
  }

  /** Whether key words are heard beside the ear: at rest it is but the one that wakes. */
  #hears(): boolean {
    return this.state.value.kind === "listening" && this.#world.listening.state.value.kind === "listening";
  }

  #spells(): boolean {
    return this.spelling.value.kind !== "off";
  }

  #spell(event: SpellingEvent): void {
    const { heard, listening, elapsed, session } = this.#world;
    const { spelling, deed } = spell(this.spelling.value, event);
    if (this.#spells() && spelling.kind === "off") {
      this.#spelled = elapsed();
      this.#settles(this.#spelled);
    }
    this.spelling.value = spelling;
    switch (deed.kind) {
      case "none":
        return;
      case "tone":
        this.#tone();
        return;
      case "say":
        if (spelling.kind === "off") this.#tell(deed.text);
        else void listening.say(deed.text);
        return;
      case "log": {
        const phrase = spelledPhrase(deed.asked, deed.figures);
        const open = session();
        if (open && this.#weighed(open, phrase).isReading) heard(phrase);
        else this.#tell(notLogged(deed.asked));
        return;
      }
    }
  }

  /** Where the phrases failed twice, figures are asked for. */
  #offer(session: Session): void {
    if (this.#spells() || !this.#hears()) return;
    const state = session.state.value;
    const id = state.questions.at(-1)?.id ?? null;
    if (id === null || id === this.#offered || !failedTwice(session.visit.value, state)) return;
    this.#offered = id;
    if (this.begin()) void this.#world.listening.say(byFiguresSaid(state));
  }

  /** Said, and shown in place of the answer, which is not true any more. */
  #tell(text: string): void {
    this.#show(text);
    void this.#world.listening.say(text);
  }

  /** What is asked about is settled now by a key word heard then. */
  #settles(at: number): void {
    const quantity = quantityAsked(this.spelling.value, this.#world.session());
    this.#settled = quantity && { quantity, at };
  }

  #weighed(session: Session, phrase: Phrase): Weighed {
    return weighed(session.meaning(phrase), quantityAsked(this.spelling.value, session));
  }

  #show(text: string): void {
    const session = this.#world.session();
    if (session) session.told.value = text;
  }

  #tone(): void {
    void this.#world.speaker.speak("", "heard");
  }

  #isFresh(at: number): boolean {
    return this.#world.listening.speaking.value || at - this.#voiceEnded < FRESH_MS;
  }

  #own() {
    const { listening, settings } = this.#world;
    const isInEar = settings().headset;
    return {
      speaking: listening.speaking.value && !isInEar,
      endedAt: isInEar ? Number.NEGATIVE_INFINITY : this.#voiceEnded,
      words: listening.own,
    };
  }
}
