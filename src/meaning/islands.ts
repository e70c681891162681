import { type Graph, type State, stepsOf } from "./graph.ts";
import type { Edge, Lattice } from "./lattice.ts";

/** A stretch of the lattice that a network understands. */
export interface Island {
  readonly start: number;
  readonly end: number;
  /** In nats: grammar weights, confusions and fillers on the way. */
  readonly cost: number;
  /** Words of the phrase that it explains rather than passes over. */
  readonly explained: number;
  readonly tags: readonly string[];
  /** Tells unlike rows of tags apart. */
  readonly key: number;
}

/** The tags passed so far, newest first, sharing their beginnings. `key` tells unlike rows of tags apart. */
interface Passed {
  readonly tags: readonly string[];
  readonly before: Passed | null;
  readonly key: number;
}

/** A path under way. */
interface Trail {
  readonly state: State;
  readonly cost: number;
  readonly explained: number;
  readonly passed: Passed | null;
}

/** Trails kept in one state at one node: rivals that read the same words differently. */
const BEAM = 4;

/**
 * Every stretch from node `start` (the `from`th of the lattice's order) that the graph understands: the cheapest reading
 * of each distinct row of tags.
 */
export function islandsFrom(graph: Graph, lattice: Lattice, from: number): Island[] {
  const found: Island[] = [];
  const start = lattice.order[from] ?? 0;
  if (!lattice.edges[start]?.some(({ word }) => word !== null && stepsOf(graph.start, word).length > 0))
    return found;
  const at = new Map<number, Trail[]>([
    [start, [{ state: graph.start, cost: 0, explained: 0, passed: null }]],
  ]);
  for (let k = from; k < lattice.order.length && at.size > 0; k += 1) {
    const node = lattice.order[k] ?? 0;
    const trails = at.get(node);
    if (!trails) continue;
    at.delete(node);
    if (node !== start) finish(trails, start, node, found);
    for (const edge of lattice.edges[node] ?? []) {
      // A break before an island's first word is no break inside it.
      const pause = node === start ? 0 : edge.pause;
      for (const trail of trails) follow(graph, trail, edge, pause, node === start, at);
    }
  }
  return found;
}

function follow(
  graph: Graph,
  trail: Trail,
  edge: Edge,
  pause: number,
  first: boolean,
  at: Map<number, Trail[]>,
): void {
  const cost = trail.cost + edge.cost + pause;
  if (edge.word === null) {
    if (!first) keep(at, edge.to, { ...trail, cost });
    return;
  }
  for (const step of stepsOf(trail.state, edge.word)) {
    const state = graph.states[step.to];
    if (!state) continue;
    const passed = pass(pass(trail.passed, step.tags, step.key), edge.tags, edge.key);
    keep(at, edge.to, { state, cost: cost + step.cost, explained: trail.explained + edge.explains, passed });
  }
}

function pass(before: Passed | null, tags: readonly string[], key: number): Passed | null {
  if (tags.length === 0) return before;
  return { tags, before, key: (Math.imul(before?.key ?? 7, 31) + key) | 0 };
}

function keep(at: Map<number, Trail[]>, node: number, trail: Trail): void {
  const trails = at.get(node);
  if (!trails) {
    at.set(node, [trail]);
    return;
  }
  let rivals = 0;
  let dearest = -1;
  for (let i = 0; i < trails.length; i += 1) {
    const rival = trails[i];
    if (rival?.state !== trail.state) continue;
    if (rival.passed?.key === trail.passed?.key) {
      if (trail.cost < rival.cost) trails[i] = trail;
      return;
    }
    rivals += 1;
    if (dearest < 0 || rival.cost > (trails[dearest]?.cost ?? 0)) dearest = i;
  }
  if (rivals < BEAM) trails.push(trail);
  else if (trail.cost < (trails[dearest]?.cost ?? 0)) trails[dearest] = trail;
}

function finish(trails: readonly Trail[], start: number, end: number, found: Island[]): void {
  const byKey = new Map<number, Trail>();
  for (const trail of trails) {
    for (const exit of trail.state.exits) {
      const passed = pass(trail.passed, exit.tags, exit.key);
      const cost = trail.cost + exit.cost;
      const known = byKey.get(passed?.key ?? 0);
      if (!known || cost < known.cost) byKey.set(passed?.key ?? 0, { ...trail, cost, passed });
    }
  }
  for (const [key, { cost, explained, passed }] of byKey) {
    found.push({ start, end, cost, explained, tags: tagsOf(passed), key });
  }
}

function tagsOf(passed: Passed | null): string[] {
  const parts: (readonly string[])[] = [];
  for (let at = passed; at; at = at.before) parts.push(at.tags);
  return parts.reverse().flat();
}
