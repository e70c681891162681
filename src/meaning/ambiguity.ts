import { QUANTITY_IDS, type QuantityId } from "../measure/quantity.ts";
import { named, quoted } from "../measure/quoted.ts";
import type { Expansion, Grammar } from "./abnf/syntax.ts";
import { standIns } from "./alike.ts";
import { doubt } from "./doubt.ts";
import { graphOf } from "./graph.ts";
import { islandsFrom } from "./islands.ts";
import { latticeOf } from "./lattice.ts";
import type { Part, WordNetwork } from "./network.ts";
import { isNumberTag, numberOf } from "./number.ts";
import { MARGIN } from "./path.ts";
import type { GrammarProblem } from "./problem.ts";
import { Rows } from "./rows.ts";
import { Symbols } from "./symbols.ts";

/** Longer numbers are made of these: what is said in two ways is said so in few words ("one seventy"). */
const LONGEST = 3;

/**
 * Number rules by which the same words are two values, both possible for one quantity that the rule is used with, and so
 * close in weight that the parser could only ask, every time. One example for each rule. Words that say alike
 * numbers are tried once ("four" for "five"); `longest` is in words.
 */
export function ambiguousNumbers(
  grammars: ReadonlyMap<string, Grammar>,
  parts: readonly Part[],
  longest = LONGEST,
): GrammarProblem[] {
  const symbols = new Symbols();
  const rows = new Rows();
  const problems: GrammarProblem[] = [];
  for (const { name, network } of parts) {
    const [file = "", rule = ""] = name.slice(1).split("#");
    const quantities = quantitiesWith(grammars, file, rule);
    if (quantities.size === 0 || !network.arcs.some(({ tag }) => tag !== null && isNumberTag(tag))) continue;
    const graph = graphOf(network, symbols, rows);
    const own = grammars.get(file);
    const words = standIns(own ? [own] : []);
    const found = new Set<string>();
    for (const said of sentencesOf(network, words, longest)) {
      const typed = said.map((word) => ({
        word,
        start: 0,
        end: 0,
        afterBreak: false,
        asked: false,
        within: false,
      }));
      const ways = islandsFrom(
        graph,
        latticeOf(typed, () => [], symbols),
        0,
        rows,
      )
        .filter(({ end }) => end === said.length)
        .map(({ row, cost }) => ({ value: numberOf(rows.tags(row)), cost }))
        .sort((a, b) => a.cost - b.cost || Number(a.value) - Number(b.value));
      for (const quantity of quantities) {
        const possible = ways.filter(({ value }) => value !== null && doubt(quantity, value, null) === null);
        const [best] = possible;
        const other = possible.find(({ value }) => value !== best?.value);
        if (found.has(rule) || !best || !other || other.cost - best.cost > MARGIN) continue;
        found.add(rule);
        problems.push({
          file,
          line: grammars.get(file)?.rules.get(rule)?.line ?? 1,
          message: `rule $${named(rule)} reads ${quoted(said.join(" "))} as ${best.value} or ${other.value}, either possible for ${quantity}: expected weights that tell them apart`,
        });
      }
    }
  }
  return problems;
}

/** Every row of up to `longest` words that a network without parts says, of words that stand in for their like. */
function sentencesOf(network: WordNetwork, words: ReadonlySet<string>, longest: number): string[][] {
  const out = new Map<number, WordNetwork["arcs"][number][]>();
  for (const arc of network.arcs) out.set(arc.from, [...(out.get(arc.from) ?? []), arc]);
  const found = new Map<string, string[]>();
  let front = new Map<string, { said: string[]; at: Set<number> }>([
    ["", { said: [], at: new Set([network.start]) }],
  ]);
  for (let length = 0; length <= longest; length += 1) {
    const next: typeof front = new Map();
    for (const [text, { said, at }] of front) {
      // A set grows while it is walked: all that empty arcs lead to.
      for (const state of at) {
        for (const { to, word } of out.get(state) ?? []) {
          if (word === null) at.add(to);
          else if (words.has(word) && length < longest) {
            const on = `${text} ${word}`;
            const there = next.get(on) ?? { said: [...said, word], at: new Set<number>() };
            there.at.add(to);
            next.set(on, there);
          }
        }
      }
      if (said.length > 0 && at.has(network.end)) found.set(text, said);
    }
    front = next;
  }
  return [...found.values()];
}

/** The quantities that stand beside a number rule in some sequence of the grammar. */
function quantitiesWith(grammars: ReadonlyMap<string, Grammar>, file: string, rule: string): Set<QuantityId> {
  const found = new Set<QuantityId>();
  for (const grammar of grammars.values()) {
    for (const { body } of grammar.rules.values()) {
      everySequence(body, (parts) => {
        const uses = parts.some(
          (part) => part.kind === "ref" && part.rule === rule && (part.file ?? grammar.file) === file,
        );
        if (uses)
          for (const part of parts)
            for (const id of quantitiesIn(grammars, grammar.file, part)) found.add(id);
      });
    }
  }
  return found;
}

function everySequence(part: Expansion, on: (parts: readonly Expansion[]) => void): void {
  if (part.kind === "sequence") {
    on(part.parts);
    for (const inner of part.parts) everySequence(inner, on);
  }
  if (part.kind === "choice") for (const { of } of part.options) everySequence(of, on);
  if (part.kind === "repeat") everySequence(part.of, on);
}

/** The quantities that a part of a rule names, through the rules that it refers to. */
function quantitiesIn(grammars: ReadonlyMap<string, Grammar>, file: string, part: Expansion): QuantityId[] {
  switch (part.kind) {
    case "tag":
      return QUANTITY_IDS.filter((id) => part.tag === `quantity ${id}`);
    case "ref": {
      const at = part.file ?? file;
      const body = grammars.get(at)?.rules.get(part.rule)?.body;
      return body ? quantitiesIn(grammars, at, body) : [];
    }
    case "sequence":
      return part.parts.flatMap((inner) => quantitiesIn(grammars, file, inner));
    case "choice":
      return part.options.flatMap(({ of }) => quantitiesIn(grammars, file, of));
    case "repeat":
      return quantitiesIn(grammars, file, part.of);
    case "token":
    case "special":
      return [];
  }
}
