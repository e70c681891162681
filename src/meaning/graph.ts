import { ANY_WORD } from "./build.ts";
import type { Arc, WordNetwork } from "./network.ts";
import type { Rows } from "./rows.ts";
import type { Symbols } from "./symbols.ts";

/** A step over one word or part: its cost in nats and the row of tags passed before it. */
export interface Step {
  readonly to: State;
  readonly cost: number;
  readonly row: number;
}

/** A way out of the network. */
export interface Exit {
  readonly cost: number;
  readonly row: number;
}

/** A place in the network without its empty steps. Filled in once, when its network is folded. */
export interface State {
  /** By symbol, the steps that any word takes among them. */
  readonly steps: Map<number, readonly Step[]>;
  /** Steps that any word takes; parts do not. */
  readonly open: Step[];
  readonly exits: Exit[];
}

/** The form of a network that the parser walks. */
export interface Graph {
  readonly start: State;
  /** Every word, and the name of every part, that some step takes. */
  readonly vocabulary: ReadonlySet<string>;
}

/** Folds the empty arcs of a network into the steps that they lead to. */
export function graphOf(network: WordNetwork, symbols: Symbols, rows: Rows): Graph {
  const out: Arc[][] = Array.from({ length: network.states }, () => []);
  for (const arc of network.arcs) out[arc.from]?.push(arc);
  const states = new Map<number, State>();
  const queue: number[] = [];
  const vocabulary = new Set<string>();

  const stateOf = (at: number): State => {
    const known = states.get(at);
    if (known) return known;
    const state: State = { steps: new Map(), open: [], exits: [] };
    states.set(at, state);
    queue.push(at);
    return state;
  };

  const fold = (origin: number): void => {
    const state = stateOf(origin);
    const named = new Map<string, Step[]>();
    const follow = (at: number, cost: number, tags: readonly string[], path: readonly number[]): void => {
      if (at === network.end) state.exits.push({ cost, row: rows.of(tags) });
      for (const arc of out[at] ?? []) {
        const spent = cost - arc.logp;
        if (arc.word !== null) {
          const step = { to: stateOf(arc.to), cost: spent, row: rows.of(tags) };
          if (arc.word === ANY_WORD) state.open.push(step);
          else named.set(arc.word, [...(named.get(arc.word) ?? []), step]);
        } else if (!path.includes(arc.to)) {
          follow(arc.to, spent, arc.tag === null ? tags : [...tags, arc.tag], [...path, arc.to]);
        }
      }
    };
    follow(origin, 0, [], [origin]);
    for (const [name, steps] of named) {
      vocabulary.add(name);
      state.steps.set(symbols.add(name), name.startsWith("$") ? steps : [...steps, ...state.open]);
    }
  };

  const start = stateOf(network.start);
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) fold(at);
  return { start, vocabulary };
}
