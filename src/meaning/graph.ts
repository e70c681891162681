import { ANY_WORD } from "./build.ts";
import type { WordNetwork } from "./network.ts";

/** A step over one word: what it costs (nats) and the tags passed on the way to it. */
export interface Step {
  readonly to: number;
  readonly cost: number;
  readonly tags: readonly string[];
}

interface Exit {
  readonly cost: number;
  readonly tags: readonly string[];
}

interface State {
  readonly steps: ReadonlyMap<string, readonly Step[]>;
  readonly exits: readonly Exit[];
}

/** The network without its empty steps: the form that the parser walks. */
export interface Graph {
  readonly start: number;
  readonly states: readonly (State | undefined)[];
  /** Every word that some step takes. */
  readonly vocabulary: ReadonlySet<string>;
}

/** Folds the empty arcs of a network into the word steps that they lead to. */
export function graphOf(network: WordNetwork): Graph {
  const out: WordNetwork["arcs"][number][][] = Array.from({ length: network.states }, () => []);
  for (const arc of network.arcs) out[arc.from]?.push(arc);
  const states: (State | undefined)[] = [];
  const queue = [network.start];
  const vocabulary = new Set<string>();

  const close = (origin: number): State => {
    const steps = new Map<string, Step[]>();
    const exits: Exit[] = [];
    const follow = (at: number, cost: number, tags: readonly string[], path: ReadonlySet<number>): void => {
      if (at === network.end) exits.push({ cost, tags });
      for (const arc of out[at] ?? []) {
        const spent = cost - arc.logp;
        if (arc.word === null) {
          if (path.has(arc.to)) continue;
          follow(arc.to, spent, arc.tag === null ? tags : [...tags, arc.tag], new Set([...path, arc.to]));
        } else {
          vocabulary.add(arc.word);
          const list = steps.get(arc.word);
          const step = { to: arc.to, cost: spent, tags };
          if (list) list.push(step);
          else steps.set(arc.word, [step]);
          queue.push(arc.to);
        }
      }
    };
    follow(origin, 0, [], new Set([origin]));
    return { steps, exits };
  };

  for (let s = queue.pop(); s !== undefined; s = queue.pop()) {
    if (states[s] === undefined) states[s] = close(s);
  }
  vocabulary.delete(ANY_WORD);
  return { start: network.start, states, vocabulary };
}

/** The steps that a word allows from a state. */
export function stepsOf(graph: Graph, state: number, word: string): readonly Step[] {
  const steps = graph.states[state]?.steps;
  const named = steps?.get(word) ?? NONE;
  const open = steps?.get(ANY_WORD);
  return open ? [...named, ...open] : named;
}

const NONE: readonly Step[] = [];
