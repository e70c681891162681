import type { EarLanguage } from "../../../meaning/network.ts";
import type { Acoustic, Chances } from "./acoustic.ts";
import { type BeamTuning, createBeam, type Found } from "./beam.ts";
import { type PhoneGraph, phoneGraph } from "./graph.ts";
import { phoneFeatures } from "./mel.ts";
import { rescored } from "./rescore.ts";

const TUNING: BeamTuning = { grammarWeight: 1, wordCost: 0.5, otherCost: 6, width: 18 };

/** Ways asked of the search: rivals that say another number stand seldom further down. */
const MOST_WAYS = 8;

/** What one utterance may have been, and how sure the model was of its phones. */
export interface Searched extends Found {
  readonly chances: Chances;
}

export interface Search {
  readonly graph: PhoneGraph;
  /** Searches one utterance: its mel energies, frame by frame, at least one. */
  find(frames: readonly Float32Array[]): Searched;
  /** The same of chances that are there already. */
  weigh(chances: Chances): Searched;
}

/** The language's network over the acoustic model's phones. */
export function createSearch(
  acoustic: Acoustic,
  language: EarLanguage,
  phones: readonly string[],
  tuning: BeamTuning = TUNING,
): Search {
  const graph = phoneGraph(language, phones);
  const beam = createBeam(graph, tuning);
  const weigh = (chances: Chances): Searched => {
    const found = beam(chances, MOST_WAYS);
    return { ...found, ways: rescored(found.ways, graph, chances), chances };
  };
  return { graph, find: (frames) => weigh(acoustic.chances(phoneFeatures(frames))), weigh };
}
