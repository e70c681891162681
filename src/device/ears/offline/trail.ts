/** A word at the end of a way through the graph, and the ways that led to where it began. */
export interface Step {
  readonly word: string;
  /** The graph's arc. */
  readonly arc: number;
  readonly phones: number;
  /** The 20 ms steps that it took: from `start` up to, not including, `end`. */
  readonly start: number;
  readonly end: number;
  /** Acoustic score in nats: the chances of its phones and of the blanks between them. */
  readonly heard: number;
  /** Every way to its beginning, best first; the score of this step builds on the first. */
  readonly before: readonly Trail[];
}

/** A way to a node. */
export interface Trail {
  /** Null before the first word. */
  readonly step: Step | null;
  /** Tells ways with different words apart. */
  readonly hash: number;
  /** Nats, less the blanks since the beginning: so it does not change while nothing is said. */
  readonly score: number;
}

/** Whole ways, best first, with what each falls short of the best, in nats. */
export interface Ranked {
  readonly steps: readonly Step[];
  readonly score: number;
}

interface Open {
  readonly trail: Trail;
  readonly score: number;
  readonly later: readonly Step[];
}

/** Tried in all before giving up on more: ways that say the same in other places count too. */
const MOST_TRIES = 400;

/** The best ways with different words that end in one of `ends` (their scores comparable), best first. */
export function ranked(ends: readonly Trail[], most: number): Ranked[] {
  const open: Open[] = ends.map((trail) => ({ trail, score: trail.score, later: [] }));
  const found = new Map<string, Ranked>();
  for (let tries = 0; tries < MOST_TRIES && found.size < most && open.length > 0; tries++) {
    const best = open.reduce(
      (most, one, at) => (one.score > (open[most]?.score ?? one.score) ? at : most),
      0,
    );
    const [taken] = open.splice(best, 1);
    if (!taken) break;
    const { step } = taken.trail;
    if (!step) {
      const words = taken.later.map(({ word }) => word).join(" ");
      if (!found.has(words)) found.set(words, { steps: taken.later, score: taken.score });
      continue;
    }
    const first = step.before[0]?.score ?? 0;
    for (const trail of step.before) {
      open.push({ trail, score: taken.score - (first - trail.score), later: [step, ...taken.later] });
    }
  }
  return [...found.values()];
}
