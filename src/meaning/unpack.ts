import type { FoldedLanguage } from "./folded.ts";
import type { Exit, Graph, State, Step } from "./graph.ts";
import { numberAt, type PackedLanguage } from "./packed.ts";
import { Rows } from "./rows.ts";
import { bitOf, Symbols } from "./symbols.ts";

/**
 * Gives back the language that was packed: with it a parser finds what it found with the first. The steps of a state are
 * read when a path first comes there: most states no visit ever meets.
 */
export function unpackLanguage(packed: PackedLanguage): FoldedLanguage {
  const { names, confusions, fillers, hints } = packed;
  const symbols = new Symbols();
  for (const name of names) symbols.add(name);
  const rows = new Rows();
  for (const tags of packed.rows) rows.of(tags);
  const graphs = graphsOf(packed);
  const [island = EMPTY] = graphs.slice(packed.parts.length);
  const parts = packed.parts.map((symbol, place) => ({ symbol, graph: graphs[place] ?? EMPTY }));
  return { symbols, rows, parts, island, confusions, fillers, hints };
}

const EMPTY: Graph = { start: { bits: 0, steps: new Map(), open: [], exits: [] }, vocabulary: new Set() };

function graphsOf(packed: PackedLanguage): Graph[] {
  const { names, columns } = packed;
  const graphs: Graph[] = [];
  /** How far each column has been read. */
  const at = { state: 0, symbol: 0, target: 0, cost: 0 };
  for (let graph = 0; graph < columns.states.length; graph += 1) {
    const states: State[] = [];
    const met = new Set<number>();
    for (let left = numberAt(columns.states, graph); left > 0; left -= 1) {
      const count = (i: number) => numberAt(columns.counts, 3 * at.state + i);
      const [steps, open, exits] = [count(0), count(1), count(2)];
      let bits = open > 0 ? -1 : 0;
      for (let i = 0; i < steps; i += 1) {
        const symbol = numberAt(columns.symbols, at.symbol + i);
        if (symbol === 0) continue;
        bits |= bitOf(symbol);
        met.add(symbol);
      }
      states.push(new PackedState(packed, states, bits, { ...at, steps, open, exits }));
      at.state += 1;
      at.symbol += steps;
      at.target += steps + open;
      at.cost += steps + open + exits;
    }
    const vocabulary = new Set([...met].map((symbol) => names[symbol - 1] ?? ""));
    graphs.push({ start: states[0] ?? EMPTY.start, vocabulary });
  }
  return graphs;
}

/** Where a state stands in the columns, and how much there is of it. */
interface Extent {
  readonly symbol: number;
  readonly target: number;
  readonly cost: number;
  readonly steps: number;
  readonly open: number;
  readonly exits: number;
}

/** A state whose steps are read from the columns when they are first asked for: only then is its graph whole. */
class PackedState implements State {
  readonly bits: number;
  readonly exits: readonly Exit[];
  readonly #packed: PackedLanguage;
  /** All states of its graph. */
  readonly #states: readonly State[];
  readonly #extent: Extent;
  #steps: ReadonlyMap<number, readonly Step[]> | null = null;
  #open: readonly Step[] | null = null;

  constructor(packed: PackedLanguage, states: readonly State[], bits: number, extent: Extent) {
    this.#packed = packed;
    this.#states = states;
    this.#extent = extent;
    this.bits = bits;
    const { steps, open, exits } = extent;
    this.exits = Array.from({ length: exits }, (_, i) => this.#way(steps + open + i));
  }

  get steps(): ReadonlyMap<number, readonly Step[]> {
    this.#steps ??= this.#readSteps();
    return this.#steps;
  }

  get open(): readonly Step[] {
    const { steps, open } = this.#extent;
    this.#open ??= Array.from({ length: open }, (_, i) => this.#step(steps + i));
    return this.#open;
  }

  #readSteps(): ReadonlyMap<number, readonly Step[]> {
    const { symbol: from, steps } = this.#extent;
    const bySymbol = new Map<number, Step[]>();
    let same: Step[] = [];
    for (let i = 0; i < steps; i += 1) {
      const symbol = numberAt(this.#packed.columns.symbols, from + i);
      if (symbol > 0) {
        same = [];
        bySymbol.set(symbol, same);
      }
      same.push(this.#step(i));
    }
    return bySymbol;
  }

  /** The `i`th step: over symbols, then over any word. */
  #step(i: number): Step {
    const to = this.#states[numberAt(this.#packed.columns.targets, this.#extent.target + i)];
    return { to: to ?? this, ...this.#way(i) };
  }

  /** The cost and the row of the `i`th step or way out. */
  #way(i: number): Exit {
    const { costs, columns } = this.#packed;
    const at = this.#extent.cost + i;
    return { cost: costs[numberAt(columns.costs, at)] ?? 0, row: numberAt(columns.rows, at) };
  }
}
