import type { Arc, WordNetwork } from "./network.ts";

/**
 * Shrinks a network without changing what it says: empty steps that lead only one way are cut, and states with the
 * same ways on are made one. Works from the end backwards; states on a cycle stay as they are.
 */
export function mergeStates(network: WordNetwork): WordNetwork {
  const out: Arc[][] = Array.from({ length: network.states }, () => []);
  for (const arc of network.arcs) out[arc.from]?.push(arc);
  const target = new Map<number, number>();
  const bySignature = new Map<string, number>();
  const begun = new Set<number>();

  /** Makes a state one with its like, when all that it leads to is settled. */
  const settle = (state: number): void => {
    const ways = new Map<string, Arc>();
    let cyclic = false;
    for (const arc of out[state] ?? []) {
      const to = target.get(arc.to);
      if (to === undefined) cyclic = true;
      const way = { ...arc, from: state, to: to ?? arc.to };
      ways.set(`${way.word ?? ""}\t${way.tag ?? ""}\t${way.logp}\t${way.to}`, way);
    }
    const arcs = [...ways.values()];
    const [only] = arcs;
    const passing = only && arcs.length === 1 && only.word === null && only.tag === null && only.logp === 0;
    const signature = `${state === network.end}\n${[...ways.keys()].sort().join("\n")}`;
    const twin = cyclic ? undefined : bySignature.get(signature);
    const kept =
      passing && !cyclic && state !== network.start && state !== network.end ? only.to : (twin ?? state);
    if (kept === state) {
      out[state] = arcs;
      if (!cyclic) bySignature.set(signature, state);
    }
    target.set(state, kept);
  };

  // A stack of its own: a long grammar is deeper than the engine's.
  const way = [network.start];
  for (let state = way.at(-1); state !== undefined; state = way.at(-1)) {
    begun.add(state);
    const next = out[state]?.find(({ to }) => !target.has(to) && !begun.has(to));
    if (next) {
      way.push(next.to);
      continue;
    }
    settle(state);
    way.pop();
  }

  const start = target.get(network.start) ?? network.start;
  const end = target.get(network.end) ?? network.end;
  const numbers = new Map<number, number>();
  const arcs: Arc[] = [];
  const queue = [start];
  numbers.set(start, 0);
  for (let state = queue.pop(); state !== undefined; state = queue.pop()) {
    for (const arc of out[state] ?? []) {
      const to = target.get(arc.to) ?? arc.to;
      if (!numbers.has(to)) {
        numbers.set(to, numbers.size);
        queue.push(to);
      }
      arcs.push({ ...arc, from: numbers.get(state) ?? 0, to: numbers.get(to) ?? 0 });
    }
  }
  return { states: numbers.size, start: 0, end: numbers.get(end) ?? 0, arcs };
}
