import { ANY_WORD } from "./build.ts";
import type { Arc, WordNetwork } from "./network.ts";

/** What is passed on the way to a word or to the end: a cost in nats, tags, and a number that tells unlike tags apart. */
interface Way {
  readonly cost: number;
  readonly tags: readonly string[];
  readonly key: number;
}

/** A step over one word, or over a part. */
export interface Step extends Way {
  readonly to: number;
}

export interface State {
  readonly steps: ReadonlyMap<string, readonly Step[]>;
  /** Steps that any word takes. */
  readonly open: readonly Step[];
  readonly exits: readonly Way[];
}

/** The network without its empty steps: the form that the parser walks. */
export interface Graph {
  readonly start: State;
  readonly states: readonly (State | undefined)[];
  /** Every word, and the name of every part, that some step takes. */
  readonly vocabulary: ReadonlySet<string>;
}

/** Numbers rows of tags, the same for all graphs of one parser. The empty row is 0. */
export type KeyOf = (tags: readonly string[]) => number;

export function keyCounter(): KeyOf {
  const keys = new Map<string, number>([["", 0]]);
  return (tags) => {
    const text = tags.join("\t");
    const known = keys.get(text) ?? keys.size;
    keys.set(text, known);
    return known;
  };
}

/** Folds the empty arcs of a network into the word steps that they lead to. */
export function graphOf(network: WordNetwork, keyOf: KeyOf): Graph {
  const out: Arc[][] = Array.from({ length: network.states }, () => []);
  for (const arc of network.arcs) out[arc.from]?.push(arc);
  const states: (State | undefined)[] = [];
  const queue = [network.start];

  const close = (origin: number): State => {
    const steps = new Map<string, Step[]>();
    const exits: Way[] = [];
    const follow = (at: number, cost: number, tags: readonly string[], path: readonly number[]): void => {
      if (at === network.end) exits.push({ cost, tags, key: keyOf(tags) });
      for (const arc of out[at] ?? []) {
        const spent = cost - arc.logp;
        if (arc.word !== null) {
          const step = { to: arc.to, cost: spent, tags, key: keyOf(tags) };
          const known = steps.get(arc.word);
          if (known) known.push(step);
          else steps.set(arc.word, [step]);
          queue.push(arc.to);
        } else if (!path.includes(arc.to)) {
          follow(arc.to, spent, arc.tag === null ? tags : [...tags, arc.tag], [...path, arc.to]);
        }
      }
    };
    follow(origin, 0, [], [origin]);
    const open = steps.get(ANY_WORD) ?? [];
    steps.delete(ANY_WORD);
    return { steps, open, exits };
  };

  for (let s = queue.pop(); s !== undefined; s = queue.pop()) {
    if (states[s] === undefined) states[s] = close(s);
  }
  const start = states[network.start] ?? { steps: new Map(), open: [], exits: [] };
  const vocabulary = new Set(states.flatMap((state) => (state ? [...state.steps.keys()] : [])));
  return { start, states, vocabulary };
}

/** The steps that a word, or a part by its name, allows from a state. */
export function stepsOf({ steps, open }: State, word: string): readonly Step[] {
  const named = steps.get(word);
  if (open.length === 0 || word.startsWith("$")) return named ?? [];
  return named ? [...named, ...open] : open;
}
