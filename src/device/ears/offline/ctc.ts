import type { Chances } from "./acoustic.ts";

/**
 * What may be heard of a known text: phones, each followed by the ones that may come next, with a blank allowed between
 * any two and before and after all.
 */
export interface Chain {
  /** The symbol of each state; a state comes after all that lead to it. */
  readonly symbols: Uint8Array;
  /** Which states lead to each, itself left out. */
  readonly before: readonly (readonly number[])[];
  readonly first: readonly number[];
  readonly last: readonly number[];
}

/**
 * @param words for each word its pronunciations, each a row of at least one phone as the acoustic model numbers them
 * @param blank the blank's number
 */
export function chainOf(words: readonly (readonly (readonly number[])[])[], blank: number): Chain {
  const symbols: number[] = [];
  const before: number[][] = [];
  const state = (symbol: number, from: readonly number[]): number => {
    // Two of the same phone in a row are heard as one: a blank has to come between them (Graves 2006).
    before.push(from.filter((one) => symbol === blank || symbols[one] !== symbol));
    return symbols.push(symbol) - 1;
  };
  /** The states after which the next phone may come: the phone, or phones, before, and the blank after them. */
  let ends = [state(blank, [])];
  const first = [...ends];
  words.forEach((ways, word) => {
    const lasts = ways.map((way) => {
      let from: readonly number[] = ends;
      let at = -1;
      way.forEach((phone, place) => {
        at = state(phone, from);
        if (word === 0 && place === 0) first.push(at);
        from = place === way.length - 1 ? [at] : [at, state(blank, [at])];
      });
      return at;
    });
    ends = [...lasts, state(blank, lasts)];
  });
  return { symbols: Uint8Array.from(symbols), before, first, last: ends };
}

/** How well a chain explains the chances of an utterance. */
export interface Alignment {
  /** Natural logarithm of the chance of the text, all alignments together. */
  readonly log: number;
  /** steps x symbols, row by row: the share of the alignments that has the symbol in the step; each row adds up to 1. */
  readonly shares: Float32Array;
}

/**
 * All alignments of a chain with an utterance, by the forward and backward variables of connectionist temporal
 * classification (A. Graves and others, ICML 2006, section 4.1), each step scaled to add up to 1 (L. Rabiner, Proc. IEEE
 * 1989, section V.A). The gradient of `-log` by the logits before the softmax is `exp(logs) - shares`.
 * @returns null where the utterance is too short for the text
 */
export function align(chain: Chain, { steps, symbols, logs }: Chances): Alignment | null {
  const states = chain.symbols.length;
  const forward = new Float64Array(steps * states);
  const scale = new Float64Array(steps);
  let log = 0;
  for (let step = 0; step < steps; step++) {
    const row = step * states;
    let sum = 0;
    for (let state = 0; state < states; state++) {
      let come = 0;
      if (step === 0) come = chain.first.includes(state) ? 1 : 0;
      else {
        const past = row - states;
        come = forward[past + state] ?? 0;
        for (const from of chain.before[state] ?? []) come += forward[past + from] ?? 0;
      }
      const heard = come === 0 ? 0 : come * Math.exp(logs[step * symbols + (chain.symbols[state] ?? 0)] ?? 0);
      forward[row + state] = heard;
      sum += heard;
    }
    if (sum === 0) return null;
    for (let state = 0; state < states; state++) forward[row + state] = (forward[row + state] ?? 0) / sum;
    scale[step] = sum;
    log += Math.log(sum);
  }
  const end = (steps - 1) * states;
  const ended = chain.last.reduce((sum, state) => sum + (forward[end + state] ?? 0), 0);
  if (ended === 0) return null;

  const shares = new Float32Array(steps * symbols);
  let backward = new Float64Array(states);
  for (const state of chain.last) backward[state] = 1 / ended;
  for (let step = steps - 1; step >= 0; step--) {
    const row = step * states;
    const next = new Float64Array(states);
    for (let state = 0; state < states; state++) {
      const symbol = step * symbols + (chain.symbols[state] ?? 0);
      const back = backward[state] ?? 0;
      if (back === 0) continue;
      shares[symbol] = (shares[symbol] ?? 0) + (forward[row + state] ?? 0) * back;
      const passed = (back * Math.exp(logs[symbol] ?? 0)) / (scale[step] ?? 1);
      next[state] = (next[state] ?? 0) + passed;
      for (const from of chain.before[state] ?? []) next[from] = (next[from] ?? 0) + passed;
    }
    backward = next;
  }
  return { log: log + Math.log(ended), shares };
}
