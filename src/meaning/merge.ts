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
  const open = new Set<number>();

  const settle = (state: number): number => {
    const known = target.get(state);
    if (known !== undefined) return known;
    if (open.has(state)) return state;
    open.add(state);
    const ways = new Map<string, Arc>();
    let cyclic = false;
    for (const arc of out[state] ?? []) {
      if (open.has(arc.to)) cyclic = true;
      const to = settle(arc.to);
      ways.set(`${arc.word ?? ""}\t${arc.tag ?? ""}\t${arc.logp}\t${to}`, { ...arc, from: state, to });
    }
    open.delete(state);
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
    return kept;
  };

  const start = settle(network.start);
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
