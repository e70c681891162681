import type { Chances } from "./acoustic.ts";
import type { PhoneGraph } from "./graph.ts";
import type { Ranked } from "./trail.ts";

const NOWHERE = Number.NEGATIVE_INFINITY;

/**
 * The search scores each way by its best alignment alone. Here every alignment counts (Graves 2006, the forward variable),
 * so that rivals are weighed as the model was trained to. Best first again.
 */
export function rescored(ways: readonly Ranked[], graph: PhoneGraph, chances: Chances): Ranked[] {
  return ways
    .map((way) => {
      const phones = way.steps.flatMap(({ arc }) => phonesOf(graph, arc));
      const { best, all } = alignments(phones, way.steps[0]?.start ?? 0, chances);
      return { ...way, score: way.score - best + all };
    })
    .sort((a, b) => b.score - a.score);
}

function phonesOf(graph: PhoneGraph, index: number): number[] {
  const arc = graph.arcs[index];
  return arc ? [...graph.phones.subarray(arc.first, arc.first + arc.length)] : [];
}

/** Nats of the best alignment of the phones with the steps from `from` on, and of all of them together. */
function alignments(
  phones: readonly number[],
  from: number,
  { steps, symbols, logs }: Chances,
): { best: number; all: number } {
  const blank = symbols - 1;
  // Blank, phone, blank, phone … blank.
  const states = 2 * phones.length + 1;
  let best = new Float64Array(states).fill(NOWHERE);
  let all = new Float64Array(states).fill(NOWHERE);
  best[0] = 0;
  all[0] = 0;
  for (let step = from; step < steps; step++) {
    const row = step * symbols;
    const nextBest = new Float64Array(states).fill(NOWHERE);
    const nextAll = new Float64Array(states).fill(NOWHERE);
    for (let state = 0; state < states; state++) {
      const symbol = state % 2 === 0 ? blank : (phones[(state - 1) / 2] ?? blank);
      const heard = logs[row + symbol] ?? NOWHERE;
      // A phone may follow another at once, but not the same one again: that takes a blank between.
      const skips = state % 2 === 1 && state > 1 && phones[(state - 1) / 2] !== phones[(state - 3) / 2];
      const skip = skips ? state - 2 : -1;
      const one = state > 0 ? state - 1 : -1;
      nextBest[state] = Math.max(best[state] ?? NOWHERE, best[one] ?? NOWHERE, best[skip] ?? NOWHERE) + heard;
      nextAll[state] = added(added(all[state] ?? NOWHERE, all[one] ?? NOWHERE), all[skip] ?? NOWHERE) + heard;
    }
    best = nextBest;
    all = nextAll;
  }
  return {
    best: Math.max(best[states - 1] ?? NOWHERE, best[states - 2] ?? NOWHERE),
    all: added(all[states - 1] ?? NOWHERE, all[states - 2] ?? NOWHERE),
  };
}

/** log(exp a + exp b). */
function added(a: number, b: number): number {
  if (a === NOWHERE) return b;
  if (b === NOWHERE) return a;
  return Math.max(a, b) + Math.log1p(Math.exp(-Math.abs(a - b)));
}
