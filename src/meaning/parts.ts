import { type Graph, graphOf, type KeyOf } from "./graph.ts";
import { islandsFrom } from "./islands.ts";
import type { Edge, Lattice } from "./lattice.ts";
import type { Part } from "./network.ts";

/** A part as the parser walks it. */
export interface PartGraph {
  readonly name: string;
  readonly graph: Graph;
}

export function partGraphs(parts: readonly Part[], keyOf: KeyOf): PartGraph[] {
  return parts.map(({ name, network }) => ({ name, graph: graphOf(network, keyOf) }));
}

/**
 * The lattice with an edge for every stretch that is one of the parts: each number or name is found once, for all rules
 * that refer to it. Backwards through the phrase, so that a part sees the parts inside it.
 */
export function withParts(lattice: Lattice, parts: readonly PartGraph[]): Lattice {
  const edges: Edge[][] = lattice.edges.map((out) => [...out]);
  const whole = { ...lattice, edges };
  for (let k = lattice.order.length - 1; k >= 0; k -= 1) {
    const node = lattice.order[k] ?? 0;
    const pause = edges[node]?.[0]?.pause ?? 0;
    for (const { name, graph } of parts) {
      for (const { end, cost, explained, tags, key } of islandsFrom(graph, whole, k)) {
        edges[node]?.push({ to: end, word: name, tags, key, cost, pause, explains: explained });
      }
    }
  }
  return whole;
}
