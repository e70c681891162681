import type { FoldedLanguage } from "./folded.ts";
import type { Exit, Graph, State, Step } from "./graph.ts";
import { type Column, type PackedLanguage, writeNumbers } from "./packed.ts";

/** Packs a language that was just folded and that no parser has taken over. `unpackLanguage` gives it back, the same. */
export function packLanguage(language: FoldedLanguage): PackedLanguage {
  const { symbols, rows, parts, island, confusions, fillers, hints } = language;
  const columns: Record<Column, number[]> = {
    states: [],
    counts: [],
    symbols: [],
    targets: [],
    costs: [],
    rows: [],
  };
  const costs = new Map<number, number>();
  const pay = ({ cost, row }: Step | Exit): void => {
    const place = costs.get(cost) ?? costs.size;
    costs.set(cost, place);
    columns.costs.push(place);
    columns.rows.push(row);
  };
  const write = (graph: Graph): void => {
    const states = statesOf(graph);
    columns.states.push(states.size);
    const go = (step: Step): void => {
      columns.targets.push(states.get(step.to) ?? 0);
      pay(step);
    };
    for (const { steps, open, exits } of states.keys()) {
      const over = [...steps.values()].reduce((sum, { length }) => sum + length, 0);
      columns.counts.push(over, open.length, exits.length);
      for (const [symbol, same] of steps) {
        columns.symbols.push(...same.map((_, at) => (at === 0 ? symbol : 0)));
        for (const step of same) go(step);
      }
      for (const step of open) go(step);
      for (const exit of exits) pay(exit);
    }
  };
  for (const { graph } of [...parts, { graph: island }]) write(graph);
  return {
    names: symbols.names(),
    rows: Array.from({ length: rows.size - 1 }, (_, at) => rows.tags(at + 1)),
    costs: [...costs.keys()],
    parts: parts.map(({ symbol }) => symbol),
    columns: {
      states: writeNumbers(columns.states),
      counts: writeNumbers(columns.counts),
      symbols: writeNumbers(columns.symbols),
      targets: writeNumbers(columns.targets),
      costs: writeNumbers(columns.costs),
      rows: writeNumbers(columns.rows),
    },
    confusions,
    fillers,
    hints,
  };
}

/** The states of a graph by number, in the order in which a walk meets them: neighbours get numbers close to each other. */
function statesOf({ start }: Graph): ReadonlyMap<State, number> {
  const numbers = new Map<State, number>();
  const queue = [start];
  for (let state = queue.pop(); state; state = queue.pop()) {
    if (numbers.has(state)) continue;
    numbers.set(state, numbers.size);
    const next = [...state.steps.values(), state.open].flatMap((steps) => steps.map(({ to }) => to));
    queue.push(...next.reverse());
  }
  return numbers;
}
