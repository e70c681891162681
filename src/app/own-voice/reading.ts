import { COLUMNS, type KeyWord, SPOTTER_RATE } from "../../device/spotter/words.ts";
import { hearNoise, isTooNoisy, roomIn } from "./hear-noise.ts";
import { hearSentence } from "./hear-sentence.ts";
import { hearWord } from "./hear-word.ts";
import { levelsOf, type RoomNoise } from "./levels.ts";
import { type Ask, asksOf, type ReadingPlan } from "./plan.ts";
import type { HeardWindow, Outcome, Take, Trouble } from "./take.ts";
import { endedWords, type Tell, tellOf } from "./wording.ts";

/** Why a reading ended before it was through. Nothing is kept of it. */
export type Ending =
  /** By a tap, or because the screen was left. */
  | { readonly kind: "cancelled" }
  /** The person said "stop", twice. */
  | { readonly kind: "stopped" }
  /** Denied or lost; one sentence. */
  | { readonly kind: "microphone"; readonly message: string }
  /** No voice fits between this noise and what a microphone can take. */
  | { readonly kind: "too-noisy" }
  | { readonly kind: "nobody" }
  /** The same did not work again and again. */
  | { readonly kind: "in-vain"; readonly trouble: Trouble };

export type Phase =
  /** The app asks: its own voice is no take. `at`: since when. */
  | { readonly kind: "telling"; readonly at: number }
  | { readonly kind: "listening"; readonly since: number; readonly windows: readonly HeardWindow[] }
  /** Every take is there. */
  | { readonly kind: "read" }
  | { readonly kind: "ended"; readonly ending: Ending };

/** A guided reading as far as it has come. */
export interface Reading {
  readonly plan: ReadingPlan;
  readonly asks: readonly Ask[];
  /** Which ask it is at. */
  readonly at: number;
  readonly phase: Phase;
  readonly room: RoomNoise | null;
  readonly takes: readonly Take[];
  /** What was wrong with the tries at this ask, in order. */
  readonly troubles: readonly Trouble[];
  /** Words that the base model takes for another one as this person says them. */
  readonly own: readonly KeyWord[];
}

/** `at`: ms of the clock of the spotter's windows. */
export type ReadingEvent =
  | {
      readonly kind: "window";
      readonly at: number;
      readonly spectrogram: Float32Array;
      readonly scores: Float32Array;
    }
  /** What was to be said is over. */
  | { readonly kind: "told"; readonly at: number }
  /** A few times a second, for what does not come. */
  | { readonly kind: "tick"; readonly at: number }
  /** One sentence. */
  | { readonly kind: "microphone"; readonly message: string }
  | { readonly kind: "cancel" };

/** What became of a reading, and what is to be said now; null where nothing is. */
export interface Step {
  readonly reading: Reading;
  readonly tell: Tell | null;
}

const WINDOW_MS = (1000 * COLUMNS * 1024) / SPOTTER_RATE;
/** The echo of the app's own voice, ms. */
const ECHO_MS = 120;
/** A voice that does not come to its end is waited for no longer, ms. */
const LONGEST_TELLING_MS = 20_000;
/** So long nothing is said, ms: then it is asked again. */
const SILENT_MS = { noise: 4000, word: 3500, sentence: 5000 };
/** Asked so often without an answer, it only waits. */
const ASKED_IN_SILENCE = 3;
/** Nobody is there, ms. */
const NOBODY_MS = 60_000;
/** So many bad takes of one ask, and more would be no better. */
const IN_VAIN = 6;
/** Of a word that is waited for no more is kept than this. */
const WINDOWS_OF_A_WORD = 12;

/** @param chance as in `asksOf`; @param at the spotter's clock, ms */
export function beginReading(plan: ReadingPlan, chance: () => number, at: number): Step {
  return ask({
    plan,
    asks: asksOf(plan, chance),
    at: 0,
    phase: { kind: "telling", at },
    room: null,
    takes: [],
    troubles: [],
    own: [],
  });
}

/** Pure: the clock comes with the events. What is over stays as it is. */
export function takeEvent(reading: Reading, event: ReadingEvent): Step {
  const { phase } = reading;
  if (phase.kind === "read" || phase.kind === "ended") return stay(reading);
  switch (event.kind) {
    case "cancel":
      return end(reading, { kind: "cancelled" });
    case "microphone":
      return end(reading, { kind: "microphone", message: event.message });
    case "told":
      return phase.kind === "telling" ? stay(listening(reading, event.at)) : stay(reading);
    case "tick":
      return phase.kind === "telling"
        ? stillTelling(reading, phase.at, event.at)
        : silence(reading, event.at);
    case "window": {
      const from = event.at - WINDOW_MS;
      if (phase.kind !== "listening" || from < phase.since) return stay(reading);
      const { at, spectrogram, scores } = event;
      const heard = { from, at, spectrogram, scores, levels: levelsOf(spectrogram) };
      const kept = askNow(reading).kind === "word" ? WINDOWS_OF_A_WORD - 1 : Number.POSITIVE_INFINITY;
      const before = phase.windows.slice(Math.max(0, phase.windows.length - kept));
      return taken({ ...reading, phase: { ...phase, windows: [...before, heard] } }, at);
    }
  }
}

/** What is asked now. */
export function askNow({ asks, at }: Reading): Ask {
  // Past the last one it has been read.
  return asks[at] ?? { kind: "noise" };
}

function stay(reading: Reading): Step {
  return { reading, tell: null };
}

function ask(reading: Reading): Step {
  return { reading, tell: tellOf(askNow(reading), reading.troubles.at(-1) ?? null) };
}

function end(reading: Reading, ending: Ending): Step {
  return {
    reading: { ...reading, takes: [], phase: { kind: "ended", ending } },
    tell: ending.kind === "cancelled" ? null : { text: endedWords(ending), tone: false },
  };
}

function listening(reading: Reading, at: number): Reading {
  return { ...reading, phase: { kind: "listening", since: at + ECHO_MS, windows: [] } };
}

function stillTelling(reading: Reading, since: number, at: number): Step {
  return stay(at - since > LONGEST_TELLING_MS ? listening(reading, at) : reading);
}

function outcomeOf(reading: Reading, since: number, windows: readonly HeardWindow[]): Outcome {
  const { plan, room, own, troubles } = reading;
  const asked = askNow(reading);
  if (asked.kind === "noise") return hearNoise(windows, since, 1000 * plan.noiseSeconds);
  if (!room) return { kind: "wait", begun: false };
  if (asked.kind === "sentence") return hearSentence(windows, since, room);
  const differs = own.includes(asked.word) || troubles.some(({ kind }) => kind === "wrong");
  return hearWord(windows, asked, room, differs);
}

/** Goes on with what was heard up to now. */
function taken(reading: Reading, at: number): Step {
  const { phase } = reading;
  if (phase.kind !== "listening") return stay(reading);
  const outcome = outcomeOf(reading, phase.since, phase.windows);
  switch (outcome.kind) {
    case "wait":
      return outcome.begun ? stay(reading) : silence(reading, at);
    case "again":
      return anew(reading, outcome.trouble, at);
    case "taken":
      return next(reading, phase.windows, outcome, at);
  }
}

function next(
  reading: Reading,
  windows: readonly HeardWindow[],
  { takes, differed }: Extract<Outcome, { kind: "taken" }>,
  at: number,
): Step {
  const asked = askNow(reading);
  const room = asked.kind === "noise" ? roomIn(windows) : reading.room;
  if (room && isTooNoisy(room)) return end(reading, { kind: "too-noisy" });
  const gone: Reading = {
    ...reading,
    room,
    takes: [...reading.takes, ...takes],
    own: differed && asked.kind === "word" ? [...reading.own, asked.word] : reading.own,
    troubles: [],
    at: reading.at + 1,
    phase: { kind: "telling", at },
  };
  if (gone.at < gone.asks.length) return ask(gone);
  return { reading: { ...gone, phase: { kind: "read" } }, tell: null };
}

/** Asks for the same once more. */
function anew(reading: Reading, trouble: Trouble, at: number): Step {
  const troubles = [...reading.troubles, trouble];
  if (isStop(trouble) && reading.troubles.some(isStop)) return end(reading, { kind: "stopped" });
  const bad = troubles.filter(({ kind }) => kind !== "silence");
  if (bad.length >= IN_VAIN) return end(reading, { kind: "in-vain", trouble });
  return ask({ ...reading, troubles, phase: { kind: "telling", at } });
}

function isStop(trouble: Trouble): boolean {
  return trouble.kind === "wrong" && trouble.heard === "stop";
}

/** Nothing was said, or nothing comes from the microphone at all. */
function silence(reading: Reading, at: number): Step {
  const { phase, troubles } = reading;
  const asked = askNow(reading);
  if (phase.kind !== "listening") return stay(reading);
  // The room is to be silent; only that nothing at all comes from it is trouble.
  if (asked.kind === "noise" && phase.windows.length > 0) return stay(reading);
  const { begun } = begunOf(outcomeOf(reading, phase.since, phase.windows));
  const waited = at - phase.since;
  if (begun || waited < SILENT_MS[asked.kind]) return stay(reading);
  if (troubles.filter(({ kind }) => kind === "silence").length < ASKED_IN_SILENCE)
    return anew(reading, { kind: "silence" }, at);
  return waited < NOBODY_MS ? stay(reading) : end(reading, { kind: "nobody" });
}

function begunOf(outcome: Outcome): { readonly begun: boolean } {
  return { begun: outcome.kind !== "wait" || outcome.begun };
}
