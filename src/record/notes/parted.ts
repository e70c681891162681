import { type ActionWord, actionAt, isPartedVerb, PARTICLES } from "./actions.ts";
import { isThing, type Sentence } from "./thing.ts";
import { DETERMINERS } from "./vocabulary.ts";

/** A verb whose particle stands behind what it is done to. */
export interface Parted {
  readonly act: ActionWord;
  /** Place of the particle. */
  readonly particle: number;
}

const FAR = 6;

/** "top the pressure up", "take it out", "put the cover back"; null where no such verb begins. */
export function partedAt(s: Sentence, place: number): Parted | null {
  const { words } = s;
  const verb = words[place]?.norm;
  if (verb === undefined || !isPartedVerb(verb)) return null;
  for (let at = place + 1; at <= place + FAR; at++) {
    const word = words[at];
    if (word?.stop !== "" || s.isWhen(at)) return null;
    if (PARTICLES.has(word.norm)) {
      const act = at > place + 1 ? actionAt((ahead) => [verb, word.norm][ahead]) : null;
      return act?.length === 2 && !isOfPlace(s, at) ? { act: { ...act, length: 1 }, particle: at } : null;
    }
    const isObject = DETERMINERS.has(word.norm) || /^(?:it|them|one|him|her)$/.test(word.norm);
    if (!isObject && !isThing(s, at)) return null;
  }
  return null;
}

/** "put the fan in the van": where it goes, and no particle. */
function isOfPlace(s: Sentence, place: number): boolean {
  const next = s.words[place + 1];
  if (!/^(?:in|on|over)$/.test(s.words[place]?.norm ?? "") || next?.stop !== "") return false;
  return DETERMINERS.has(next.norm) || isThing(s, place + 1);
}
