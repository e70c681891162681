import { expect, it } from "vitest";
import { loadLanguage } from "../../../../src/cli/language.ts";
import { compact } from "../../../../src/device/ears/offline/compact.ts";
import type { Arc, WordNetwork } from "../../../../src/meaning/network.ts";

const arc = (from: number, to: number, word: string | null, logp = 0): Arc => ({
  from,
  to,
  word,
  logp,
  tag: null,
});

/** A chain of empty steps, a detour that is worse, and a loop back. */
const SMALL: WordNetwork = {
  states: 7,
  start: 0,
  end: 6,
  arcs: [
    arc(0, 1, null, -1),
    arc(1, 2, null),
    arc(0, 2, null, -3),
    arc(2, 3, "high", -0.5),
    arc(2, 3, "low"),
    arc(3, 4, null),
    arc(4, 5, "fire"),
    arc(5, 2, null, -2),
    arc(5, 6, null),
  ],
};

/** The best weight of each phrase up to a length, following any number of empty steps. */
function phrases({ start, end, arcs }: WordNetwork, longest: number): Map<string, number> {
  const best = new Map<string, number>();
  const walk = (at: number, words: string[], logp: number, empty: number): void => {
    const text = words.join(" ");
    if (at === end) best.set(text, Math.max(best.get(text) ?? Number.NEGATIVE_INFINITY, logp));
    for (const next of arcs) {
      if (next.from !== at || (next.word === null ? empty > 5 : words.length >= longest)) continue;
      const said = next.word === null ? words : [...words, next.word];
      walk(next.to, said, logp + next.logp, next.word === null ? empty + 1 : 0);
    }
  };
  walk(start, [], 0, 0);
  return best;
}

it("says the same phrases with the same weights", () => {
  expect(phrases(SMALL, 4).size).toBe(6);
  expect(phrases(compact(SMALL), 4)).toEqual(phrases(SMALL, 4));
});

it("leaves the real network no two empty steps in a row, but for the start's and the way out", () => {
  const network = compact(loadLanguage().utterance);
  const entered = new Set(network.arcs.filter(({ word }) => word !== null).map(({ to }) => to));
  const empty = network.arcs.filter(({ word }) => word === null);
  for (const { from, to } of empty.filter((step) => entered.has(step.from))) {
    for (const second of empty.filter((step) => step.from === to)) {
      expect(empty.some((direct) => direct.from === from && direct.to === second.to)).toBe(true);
    }
  }
});
