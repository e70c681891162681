import { ANY_WORD } from "./build.ts";
import type { Arc, WordNetwork } from "./network.ts";
import type { Rows } from "./rows.ts";
import { bitOf, type Symbols } from "./symbols.ts";

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

/** Where a path may be in the network. */
export interface State {
  /** The bits (`bitOf`) of all symbols that it has steps for, any word included: a quick no. */
  readonly bits: number;
  /** By symbol, the steps that any word takes among them. */
  readonly steps: ReadonlyMap<number, readonly Step[]>;
  /** Steps that any word takes; parts do not. */
  readonly open: readonly Step[];
  readonly exits: readonly Exit[];
}

/** A state that is being filled in. */
interface Filling extends State {
  bits: number;
  readonly steps: Map<number, readonly Step[]>;
  open: readonly Step[];
  readonly exits: Exit[];
}

/** The form of a network that the parser walks. */
export interface Graph {
  readonly start: State;
  /** Every word, and the name of every part, that some step takes. */
  readonly vocabulary: ReadonlySet<string>;
}

/** A state of the network that a path may be in, and what that costs more than the cheapest of the others. */
interface Member {
  readonly at: number;
  readonly owed: number;
}

/**
 * Folds the empty arcs of a network into the steps that they lead to, and steps over the same word with the same tags into
 * one: a path is in several states of the network at a time, so that rules which begin alike are walked once.
 */
export function graphOf(network: WordNetwork, symbols: Symbols, rows: Rows): Graph {
  const waysFrom = foldEmpty(network, rows);
  const states = new Map<string, Filling>();
  const queue: (readonly [Filling, readonly Member[]])[] = [];
  const vocabulary = new Set<string>();

  const stateOf = (members: readonly Member[]): State => {
    const name = members.map(({ at, owed }) => `${at}+${owed.toFixed(6)}`).join(" ");
    const known = states.get(name);
    if (known) return known;
    const state: Filling = { bits: 0, steps: new Map(), open: [], exits: [] };
    states.set(name, state);
    queue.push([state, members]);
    return state;
  };

  const stepsTo = (targets: readonly Target[]): Step[] => {
    const byRow = new Map<number, Target[]>();
    for (const target of targets) byRow.set(target.row, [...(byRow.get(target.row) ?? []), target]);
    return [...byRow].map(([row, alike]) => {
      const cost = Math.min(...alike.map((target) => target.cost));
      const owed = new Map<number, number>();
      for (const target of alike)
        owed.set(target.to, Math.min(owed.get(target.to) ?? Infinity, target.cost - cost));
      const members = [...owed].map(([at, more]) => ({ at, owed: more })).sort((a, b) => a.at - b.at);
      return { to: stateOf(members), cost, row };
    });
  };

  const fill = (state: Filling, members: readonly Member[]): void => {
    const named = new Map<string, Target[]>();
    for (const { at, owed } of members) {
      const { exits, targets } = waysFrom(at);
      for (const exit of exits) state.exits.push({ cost: exit.cost + owed, row: exit.row });
      for (const target of targets) {
        const more = { ...target, cost: target.cost + owed };
        const list = named.get(target.word);
        if (list) list.push(more);
        else named.set(target.word, [more]);
      }
    }
    const open = named.get(ANY_WORD) ?? [];
    named.delete(ANY_WORD);
    state.open = stepsTo(open);
    if (open.length > 0) state.bits = -1;
    for (const [name, targets] of named) {
      vocabulary.add(name);
      const symbol = symbols.add(name);
      state.bits |= bitOf(symbol);
      state.steps.set(symbol, stepsTo(name.startsWith("$") ? targets : [...targets, ...open]));
    }
  };

  const start = stateOf([{ at: network.start, owed: 0 }]);
  for (let next = queue.pop(); next; next = queue.pop()) fill(...next);
  return { start, vocabulary };
}

interface Target {
  readonly word: string;
  readonly to: number;
  readonly cost: number;
  readonly row: number;
}

/** For a state of the network, every word that its empty arcs lead to and every way out, with what is passed before. */
function foldEmpty(network: WordNetwork, rows: Rows): (at: number) => { exits: Exit[]; targets: Target[] } {
  const out: Arc[][] = Array.from({ length: network.states }, () => []);
  for (const arc of network.arcs) out[arc.from]?.push(arc);
  const folded = new Map<number, { exits: Exit[]; targets: Target[] }>();
  return (origin) => {
    const known = folded.get(origin);
    if (known) return known;
    const exits: Exit[] = [];
    const targets: Target[] = [];
    const follow = (at: number, cost: number, tags: readonly string[], path: readonly number[]): void => {
      if (at === network.end) exits.push({ cost, row: rows.of(tags) });
      for (const { word, tag, to, logp } of out[at] ?? []) {
        const spent = cost - logp;
        if (word !== null) targets.push({ word, to, cost: spent, row: rows.of(tags) });
        else if (!path.includes(to)) follow(to, spent, tag === null ? tags : [...tags, tag], [...path, to]);
      }
    };
    follow(origin, 0, [], [origin]);
    const found = { exits, targets };
    folded.set(origin, found);
    return found;
  };
}
