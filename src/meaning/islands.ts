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

/** Whether any edge from a node can begin what the graph understands and lead on from there. */
export function canStart({ start }: Graph, { edges, bits }: Lattice, node: number): boolean {
  for (const { symbol, isPart, to } of edges[node] ?? []) {
    if ((start.bits & bitOf(symbol)) === 0) continue;
    for (const step of stepsOf(start, symbol, isPart)) if (leadsOn(step.to, bits[to] ?? 0)) return true;
  }
  return false;
}

/** Whether a path may end in a state or go on with one of the words to come. */
function leadsOn({ exits, bits }: State, next: number): boolean {
  return exits.length > 0 || (bits & next) !== 0;
}

/** What all steps of one walk share. `at` has the trails at each node, counted from `start`. */
interface Walk {
  readonly lattice: Lattice;
  readonly start: number;
  readonly rows: Rows;
  readonly at: (Trail[] | undefined)[];
}

/** Every stretch from node `start` that the graph understands: the cheapest reading of each distinct row of tags. */
export function islandsFrom(
  graph: Graph,
  lattice: Lattice,
  start: number,
  rows: Rows,
  { dearestFiller, breaks } = LOOSE,
): Island[] {
  const found: Island[] = [];
  const { edges, passes, bits } = lattice;
  const at: (Trail[] | undefined)[] = [[{ state: graph.start, cost: 0, explained: 0, row: 0, fillers: 0 }]];
  const walk: Walk = { lattice, start, rows, at };
  for (let node = start; node - start < at.length; node += 1) {
    const trails = at[node - start];
    if (!trails) continue;
    if (node !== start) {
      finish(trails, node, rows, found);
      for (const { to, cost } of passes[node] ?? []) {
        if (cost > dearestFiller) continue;
        for (const trail of trails) {
          if (trail.fillers < MOST_FILLERS && (trail.state.bits & (bits[to] ?? 0)) !== 0)
            keep(at, to - start, { ...trail, cost: trail.cost + cost, fillers: trail.fillers + 1 });
        }
      }
    }
    for (const edge of edges[node] ?? []) {
      const bit = bitOf(edge.symbol);
      // A break before an island's first word is no break inside it.
      const cost = edge.cost + (node === start ? 0 : edge.pause * breaks);
      for (const trail of trails) if ((trail.state.bits & bit) !== 0) follow(walk, trail, edge, cost);
    }
  }
  return found;
}

function follow({ lattice, start, rows, at }: Walk, trail: Trail, edge: Edge, cost: number): void {
  const explained = trail.explained + edge.explains;
  const most = GIVE_UP + GIVE_UP_PER_WORD * explained;
  const next = lattice.bits[edge.to] ?? 0;
  for (const step of stepsOf(trail.state, edge.symbol, edge.isPart)) {
    const spent = trail.cost + cost + step.cost;
    if (spent > most || !leadsOn(step.to, next)) continue;
    const said = step.row === 0 ? trail.row : rows.join(trail.row, step.row);
    const row = edge.row === 0 ? said : rows.join(said, edge.row);
    keep(at, edge.to - start, { state: step.to, cost: spent, explained, row, fillers: 0 });
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
