import type { Fuel } from "../measure/firing.ts";
import type { Phrase, Utterance } from "./heard.ts";
import type { WordNetwork } from "./network.ts";
import { isNumberTag, numberOf } from "./number.ts";
import { wordsOf } from "./words.ts";

/** What a sentence on the start page says. What it does not say is null. */
export interface StartMeaning {
  /** The sheet's number on the page, from 1, or that there is none. */
  readonly sheet: number | "none" | null;
  readonly fuel: Fuel | null;
  readonly go: boolean;
  /** Words that no rule of the grammar explains, and what was said before it was said otherwise. */
  readonly rest: readonly string[];
}

const FUEL_TAGS: Readonly<Record<string, Fuel>> = {
  "fuel natural-gas": "natural-gas",
  "fuel propane": "propane",
};

/** Reads a sentence, piece by piece, the longest first. @param piece the network of one piece of grammars/en/start.abnf */
export function startMeaning(piece: WordNetwork, text: string): StartMeaning {
  const words = wordsOf(text).map(({ word }) => word);
  const arcs = leavingArcs(piece);
  let meaning: StartMeaning = { sheet: null, fuel: null, go: false, rest: [] };
  let at = 0;
  while (at < words.length) {
    const found = longest(piece, arcs, words, at);
    const said = words.slice(at, found?.end ?? at + 1);
    meaning = found ? withPiece(meaning, found.tags, said) : { ...meaning, rest: [...meaning.rest, ...said] };
    at += said.length;
  }
  return meaning;
}

/** What was said otherwise before is left over: then somebody has to look. */
function withPiece(meaning: StartMeaning, tags: readonly string[], said: readonly string[]): StartMeaning {
  const number = numberOf(tags.filter(isNumberTag));
  const sheet = tags.includes("no-sheet") ? "none" : tags.includes("sheet") ? number : null;
  const fuel = tags.map((tag) => FUEL_TAGS[tag]).find((one) => one !== undefined) ?? null;
  const otherwise =
    (sheet !== null && meaning.sheet !== null && sheet !== meaning.sheet) ||
    (fuel !== null && meaning.fuel !== null && fuel !== meaning.fuel);
  return {
    sheet: sheet ?? meaning.sheet,
    fuel: fuel ?? meaning.fuel,
    go: meaning.go || tags.includes("go"),
    rest: otherwise ? [...meaning.rest, ...said] : meaning.rest,
  };
}

type Arcs = ReadonlyMap<number, WordNetwork["arcs"]>;

function leavingArcs({ arcs }: WordNetwork): Arcs {
  const leaving = new Map<number, WordNetwork["arcs"][number][]>();
  for (const arc of arcs) leaving.set(arc.from, [...(leaving.get(arc.from) ?? []), arc]);
  return leaving;
}

interface Found {
  readonly end: number;
  readonly tags: readonly string[];
}

/** The longest way through the network that the words from `at` on take; null where none does. The network is finite. */
function longest(
  { start, end }: WordNetwork,
  arcs: Arcs,
  words: readonly string[],
  at: number,
): Found | null {
  let best: Found | null = null;
  const walk = (state: number, place: number, tags: readonly string[]): void => {
    if (state === end && place > (best?.end ?? at)) best = { end: place, tags };
    for (const { to, word, tag } of arcs.get(state) ?? []) {
      if (word !== null && word !== words[place]) continue;
      walk(to, word === null ? place : place + 1, tag === null ? tags : [...tags, tag]);
    }
  };
  walk(start, at, []);
  return best;
}

/** The sentence an utterance is taken as: of all that may have been said the likeliest meaning. Null where it was other speech. */
export function chooseStart(
  piece: WordNetwork,
  { engine, hypotheses, rejected, sound }: Utterance,
): Phrase | null {
  if (rejected) return null;
  const meanings = new Map<string, { text: string; confidence: number }>();
  for (const { words, confidence } of hypotheses) {
    if (words.length === 0) continue;
    const text = words.map(({ word }) => word).join(" ");
    const key = JSON.stringify(startMeaning(piece, text));
    const same = meanings.get(key);
    meanings.set(key, { text: same?.text ?? text, confidence: (same?.confidence ?? 0) + confidence });
  }
  const [best] = [...meanings.values()].sort((a, b) => b.confidence - a.confidence);
  return best ? { text: best.text, engine, confidence: Math.min(1, best.confidence), sound } : null;
}
