import type { FoldedLanguage } from "./folded.ts";
import type { Exit, Graph, State, Step } from "./graph.ts";
import { type Column, numbersOf, type PackedLanguage } from "./packed.ts";
import { Rows } from "./rows.ts";
import { bitOf, Symbols } from "./symbols.ts";

/** Gives back the language that was packed: with it a parser finds what it found with the first. */
export function unpackLanguage(packed: PackedLanguage): FoldedLanguage {
  const { names, costs, columns, confusions, fillers, hints } = packed;
  const symbols = new Symbols();
  for (const name of names) symbols.add(name);
  const rows = new Rows();
  for (const tags of packed.rows) rows.of(tags);

  const next: Readonly<Record<Column, () => number>> = {
    states: numbersOf(columns.states),
    counts: numbersOf(columns.counts),
    symbols: numbersOf(columns.symbols),
    targets: numbersOf(columns.targets),
    costs: numbersOf(columns.costs),
    rows: numbersOf(columns.rows),
  };
  const exit = (): Exit => ({ cost: costs[next.costs()] ?? 0, row: next.rows() });

  const graph = (): Graph => {
    const states = Array.from({ length: next.states() }, blank);
    const [start = blank()] = states;
    const met = new Set<number>();
    const step = (): Step => ({ to: states[next.targets()] ?? start, ...exit() });
    for (const state of states) {
      const over = next.counts();
      const open = next.counts();
      const exits = next.counts();
      let same: Step[] = [];
      for (let i = 0; i < over; i += 1) {
        const symbol = next.symbols();
        if (symbol > 0) {
          same = [];
          state.steps.set(symbol, same);
          state.bits |= bitOf(symbol);
          met.add(symbol);
        }
        same.push(step());
      }
      for (let i = 0; i < open; i += 1) state.open.push(step());
      for (let i = 0; i < exits; i += 1) state.exits.push(exit());
      if (open > 0) state.bits = -1;
    }
    const vocabulary = new Set([...met].map((symbol) => names[symbol - 1] ?? ""));
    return { start, vocabulary };
  };

  const parts = packed.parts.map((symbol) => ({ symbol, graph: graph() }));
  return { symbols, rows, parts, island: graph(), confusions, fillers, hints };
}

interface Filling extends State {
  readonly steps: Map<number, Step[]>;
  readonly open: Step[];
}

function blank(): Filling {
  return { bits: 0, steps: new Map(), open: [], exits: [] };
}
