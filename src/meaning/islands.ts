import { type Graph, stepsOf } from "./graph.ts";
import type { Lattice } from "./lattice.ts";

/** A stretch of the lattice that the grammar understands. */
export interface Island {
  readonly start: number;
  readonly end: number;
  /** In nats: grammar weights, confusions and fillers on the way. */
  readonly cost: number;
  readonly tags: readonly string[];
}

/** A path under way. `tags` are shared, never changed in place. */
interface Trail {
  readonly state: number;
  readonly cost: number;
  readonly tags: readonly string[];
}

/** Trails kept in one state at one node: rivals that read the same words differently. */
const BEAM = 4;

/** Every island that starts before word `start`, cheapest reading of each distinct tag sequence. */
export function islandsFrom(graph: Graph, lattice: Lattice, start: number): Island[] {
  const first = graph.states[graph.start];
  const begins = lattice.edges[start]?.some((edge) => edge.word !== null && first?.steps.has(edge.word));
  if (!begins) return [];
  const at = new Map<number, Map<number, Trail[]>>([
    [start, new Map([[graph.start, [{ state: graph.start, cost: 0, tags: [] }]]])],
  ]);
  const found: Island[] = [];
  for (const node of lattice.order) {
    const states = at.get(node);
    if (!states) continue;
    for (const trails of states.values()) {
      for (const trail of trails) {
        if (node !== start && node <= lattice.words.length) finish(graph, trail, start, node, found);
        for (const edge of lattice.edges[node] ?? []) {
          if (edge.word === null) {
            if (node !== start) keep(at, edge.to, { ...trail, cost: trail.cost + edge.cost });
            continue;
          }
          for (const step of stepsOf(graph, trail.state, edge.word)) {
            const tags = step.tags.length === 0 ? trail.tags : [...trail.tags, ...step.tags];
            // The break before an island's first word is no break inside it.
            const pause = node === start ? 0 : edge.cost;
            const opening = node === start ? edge.cost - breakAt(lattice, start) : 0;
            keep(at, edge.to, { state: step.to, cost: trail.cost + step.cost + pause + opening, tags });
          }
        }
      }
    }
  }
  return found;
}

function breakAt(lattice: Lattice, node: number): number {
  return lattice.edges[node]?.[0]?.cost ?? 0;
}

function keep(at: Map<number, Map<number, Trail[]>>, node: number, trail: Trail): void {
  let states = at.get(node);
  if (!states) {
    states = new Map();
    at.set(node, states);
  }
  const rivals = states.get(trail.state);
  if (!rivals) {
    states.set(trail.state, [trail]);
    return;
  }
  const same = rivals.findIndex((rival) => sameTags(rival.tags, trail.tags));
  if (same >= 0) {
    if ((rivals[same]?.cost ?? 0) > trail.cost) rivals[same] = trail;
    return;
  }
  rivals.push(trail);
  if (rivals.length > BEAM) {
    rivals.sort((a, b) => a.cost - b.cost);
    rivals.length = BEAM;
  }
}

function finish(graph: Graph, trail: Trail, start: number, end: number, found: Island[]): void {
  for (const exit of graph.states[trail.state]?.exits ?? []) {
    const cost = trail.cost + exit.cost;
    const tags = [...trail.tags, ...exit.tags];
    const known = found.findIndex((island) => island.end === end && sameTags(island.tags, tags));
    const rival = found[known];
    if (!rival) found.push({ start, end, cost, tags });
    else if (rival.cost > cost) found[known] = { start, end, cost, tags };
  }
}

function sameTags(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((tag, i) => tag === b[i]);
}
