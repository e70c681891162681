import type { Graph, State, Step } from "./graph.ts";
import type { Edge, Lattice } from "./lattice.ts";
import type { Rows } from "./rows.ts";
import { bitOf } from "./symbols.ts";

/** A stretch of the lattice, between two nodes, that a network understands. */
export interface Island {
  readonly end: number;
  /** In nats: grammar weights, confusions and fillers on the way. */
  readonly cost: number;
  /** Words of the phrase that it explains rather than passes over. */
  readonly explained: number;
  /** Its tags, as a row of `Rows`. */
  readonly row: number;
}

/** A path under way. */
interface Trail {
  readonly state: State;
  readonly cost: number;
  readonly explained: number;
  readonly row: number;
  /** Fillers just passed over. */
  readonly fillers: number;
}

/** How loosely the words of an island may hang together. */
export interface Looseness {
  /** A filler that costs more, in nats, is not passed over inside it. */
  readonly dearestFiller: number;
  /** How many times its cost a comma inside it counts. One before its first word is none inside it. */
  readonly breaks: number;
}

const LOOSE: Looseness = { dearestFiller: Number.POSITIVE_INFINITY, breaks: 1 };

/** Trails kept in one state at one node: rivals that read the same words differently. */
const BEAM = 6;
/** Fillers in a row inside an island: "CO2, uh, well, nine". */
const MOST_FILLERS = 2;
/** A trail is given up when it costs more, in nats, than passing over its words would. */
const GIVE_UP = 2;
const GIVE_UP_PER_WORD = 1;

/** Whether any edge from a node can begin what the graph understands. */
export function canStart(graph: Graph, edges: readonly Edge[]): boolean {
  for (const { symbol, isPart } of edges) {
    if ((graph.start.bits & bitOf(symbol)) !== 0 && stepsOf(graph.start, symbol, isPart).length > 0)
      return true;
  }
  return false;
}

/**
 * Every stretch from node `start` that the graph understands: the cheapest reading of each distinct row of tags.
 */
export function islandsFrom(
  graph: Graph,
  lattice: Lattice,
  start: number,
  rows: Rows,
  looseness: Looseness = LOOSE,
): Island[] {
  const found: Island[] = [];
  const { edges, passes } = lattice;
  const at: (Trail[] | undefined)[] = [];
  at[start] = [{ state: graph.start, cost: 0, explained: 0, row: 0, fillers: 0 }];
  for (let node = start; node < at.length; node += 1) {
    const trails = at[node];
    if (!trails) continue;
    if (node !== start) {
      finish(trails, node, rows, found);
      for (const { to, cost } of passes[node] ?? []) {
        if (cost > looseness.dearestFiller) continue;
        for (const trail of trails) {
          if (trail.fillers < MOST_FILLERS)
            keep(at, to, { ...trail, cost: trail.cost + cost, fillers: trail.fillers + 1 });
        }
      }
    }
    for (const edge of edges[node] ?? []) {
      const bit = bitOf(edge.symbol);
      for (const trail of trails) {
        if ((trail.state.bits & bit) !== 0)
          follow(trail, edge, node === start ? 0 : looseness.breaks, at, rows);
      }
    }
  }
  return found;
}

function follow(trail: Trail, edge: Edge, breaks: number, at: (Trail[] | undefined)[], rows: Rows): void {
  const cost = trail.cost + edge.cost + edge.pause * breaks;
  const { state, explained, row } = trail;
  const known = explained + edge.explains;
  for (const step of stepsOf(state, edge.symbol, edge.isPart)) {
    const spent = cost + step.cost;
    if (spent > GIVE_UP + GIVE_UP_PER_WORD * known) continue;
    const said = step.row === 0 ? row : rows.join(row, step.row);
    const passed = edge.row === 0 ? said : rows.join(said, edge.row);
    keep(at, edge.to, { state: step.to, cost: spent, explained: known, row: passed, fillers: 0 });
  }
}

const NONE: readonly Step[] = [];

function stepsOf(state: State, symbol: number, isPart: boolean): readonly Step[] {
  return state.steps.get(symbol) ?? (isPart ? NONE : state.open);
}

function keep(at: (Trail[] | undefined)[], node: number, trail: Trail): void {
  const trails = at[node];
  if (!trails) {
    at[node] = [trail];
    return;
  }
  let rivals = 0;
  let dearest = -1;
  for (let i = 0; i < trails.length; i += 1) {
    const rival = trails[i];
    // One that ends in a filler is no end of an island: it is kept apart from one that does not.
    if (rival?.state !== trail.state || (rival.fillers === 0) !== (trail.fillers === 0)) continue;
    if (rival.row === trail.row) {
      if (trail.cost < rival.cost) trails[i] = trail;
      return;
    }
    rivals += 1;
    if (dearest < 0 || rival.cost > (trails[dearest]?.cost ?? 0)) dearest = i;
  }
  if (rivals < BEAM) trails.push(trail);
  else if (trail.cost < (trails[dearest]?.cost ?? 0)) trails[dearest] = trail;
}

function finish(trails: readonly Trail[], end: number, rows: Rows, found: Island[]): void {
  const from = found.length;
  for (const trail of trails) {
    if (trail.fillers > 0) continue;
    for (const exit of trail.state.exits) {
      const row = rows.join(trail.row, exit.row);
      const cost = trail.cost + exit.cost;
      const { explained } = trail;
      let i = from;
      while (i < found.length && found[i]?.row !== row) i += 1;
      if (i === found.length || cost < (found[i]?.cost ?? 0)) found[i] = { end, cost, explained, row };
    }
  }
}
