import type { Arc, WordNetwork } from "../../../meaning/network.ts";

/**
 * The same words with the same weights, without chains of empty steps: PocketSphinx follows only one empty step after
 * a word and expects its graph closed (fsg_search_null_prop), and this way in nobody closes it. What stays empty is
 * one step into the end, and one into the hub, the state where every island may begin: without the hub each state
 * that can end an island would repeat all their beginnings. States that nothing tells apart are merged, because each
 * costs search.
 */
export function compact(network: WordNetwork): WordNetwork {
  const leaving = Array.from({ length: network.states }, (): Arc[] => []);
  for (const arc of network.arcs) leaving[arc.from]?.push(arc);
  return merge(closed(network, leaving, busiest(network, leaving)));
}

/** The state whose way onward would be copied most: many words lead to it by empty steps, and many begin there. */
function busiest(network: WordNetwork, leaving: Leaving): number {
  const entered = new Set(network.arcs.flatMap((arc) => (arc.word === null ? [] : [arc.to])));
  const visits = new Map<number, number>();
  for (const state of entered) {
    for (const at of reachedEmpty(state, leaving, null).keys()) visits.set(at, (visits.get(at) ?? 0) + 1);
  }
  let best = { state: network.start, copies: 0 };
  for (const state of reachedEmpty(network.start, leaving, null).keys()) {
    const copies = (visits.get(state) ?? 0) * reachedEmpty(state, leaving, null).size;
    if (copies > best.copies) best = { state, copies };
  }
  return best.state;
}

/** Word arcs start where an empty path begins; an empty path to the hub or the end becomes one empty arc. */
function closed(network: WordNetwork, leaving: Leaving, hub: number): WordNetwork {
  const arcs: Arc[] = [];
  const seen = new Set([network.start, hub]);
  const queue = [...seen];
  const toEnd = reachedEmpty(hub, leaving, null).get(network.end);
  for (let from = queue.pop(); from !== undefined; from = queue.pop()) {
    const reached = reachedEmpty(from, leaving, hub);
    const empty = (to: number, logp: number): void => {
      if (from !== to) arcs.push({ from, to, word: null, logp, tag: null });
    };
    for (const [at, logp] of reached) {
      if (at === network.end) empty(network.end, logp);
      if (at === hub && from !== hub) {
        empty(hub, logp);
        if (toEnd !== undefined) empty(network.end, logp + toEnd);
        continue;
      }
      for (const arc of leaving[at] ?? []) {
        if (arc.word === null) continue;
        arcs.push({ ...arc, from, logp: logp + arc.logp, tag: null });
        if (seen.has(arc.to)) continue;
        seen.add(arc.to);
        queue.push(arc.to);
      }
    }
  }
  return { ...network, arcs };
}

type Leaving = readonly (readonly Arc[])[];

/** Every state reached from one by empty steps alone, none beyond `stop`, with the weight of the best way there. */
function reachedEmpty(from: number, leaving: Leaving, stop: number | null): ReadonlyMap<number, number> {
  const best = new Map([[from, 0]]);
  const queue = [from];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    const here = best.get(at) ?? 0;
    if (at === stop && at !== from) continue;
    for (const arc of leaving[at] ?? []) {
      if (arc.word !== null) continue;
      const logp = here + arc.logp;
      if (logp <= (best.get(arc.to) ?? Number.NEGATIVE_INFINITY)) continue;
      best.set(arc.to, logp);
      queue.push(arc.to);
    }
  }
  return best;
}

/** Joins states with the same way onward, round by round, until no two are alike; of like arcs the likeliest stays. */
function merge(network: WordNetwork): WordNetwork {
  let now = network;
  for (;;) {
    const next = mergeOnce(now);
    if (next.states === now.states) return next;
    now = next;
  }
}

function mergeOnce({ start, end, arcs }: WordNetwork): WordNetwork {
  const onward = new Map<number, Map<string, Arc>>([
    [start, new Map()],
    [end, new Map()],
  ]);
  for (const arc of arcs) {
    if (!onward.has(arc.from)) onward.set(arc.from, new Map());
    if (!onward.has(arc.to)) onward.set(arc.to, new Map());
    const key = `${arc.word ?? ""} ${arc.to}`;
    const rival = onward.get(arc.from)?.get(key);
    if (!rival || rival.logp < arc.logp) onward.get(arc.from)?.set(key, arc);
  }
  const numbers = new Map<number, number>();
  const known = new Map<string, number>();
  for (const [state, ways] of onward) {
    const signature = [...ways]
      .map(([key, arc]) => `${key} ${arc.logp.toFixed(6)}`)
      .sort()
      .join("|");
    // Start and end stay themselves: the search must not re-enter the start unless the grammar says so.
    const key = state === start ? "start" : state === end ? "end" : signature;
    const number = known.get(key) ?? known.size;
    known.set(key, number);
    numbers.set(state, number);
  }
  const number = (state: number): number => numbers.get(state) ?? 0;
  const kept = new Map<string, Arc>();
  for (const ways of onward.values()) {
    for (const arc of ways.values()) {
      const moved = { ...arc, from: number(arc.from), to: number(arc.to) };
      kept.set(`${moved.from} ${moved.to} ${moved.word}`, moved);
    }
  }
  return { states: known.size, start: number(start), end: number(end), arcs: [...kept.values()] };
}
