import { named } from "../measure/quoted.ts";
import type { Expansion, Grammar, Rule } from "./abnf/syntax.ts";
import { mergeStates } from "./merge.ts";
import type { Arc, Part, WordNetwork } from "./network.ts";
import { GrammarError, type GrammarProblem } from "./problem.ts";

/** Matches any one word; in the parser's network only. */
export const ANY_WORD = "*";

/** Six times what the whole grammar of English takes. */
const MOST_STATES = 150_000;

/** Rules one inside the other: far more than anybody can follow, and far fewer than any call stack. */
const DEEPEST = 64;

/** Which reader the network is for: rules that a file's `meta "parser-only"` names are left out for the ear. */
export type ReaderKind = "parser" | "ear";

/**
 * Expands one rule, with all that it refers to, into a flat network: what a recogniser searches. Rules may not refer to
 * themselves: the network is finite-state.
 */
export function buildForEar(grammars: ReadonlyMap<string, Grammar>, file: string, rule: string): WordNetwork {
  return build(grammars, { file, rule }, "ear").network;
}

/**
 * Expands one rule for the parser: rules that a file's `meta "shared"` names stay parts of their own, since numbers and
 * names written out in each of the places that refer to them make a network thirty times the size.
 */
export function buildForParser(
  grammars: ReadonlyMap<string, Grammar>,
  file: string,
  rule: string,
): { island: WordNetwork; parts: Part[] } {
  const parts = new Map<string, WordNetwork>();
  const open: string[] = [];
  const expand = (of: RuleName): WordNetwork => {
    const { network, needs } = build(grammars, of, "parser");
    for (const need of needs) {
      const name = partName(need);
      if (parts.has(name)) continue;
      if (open.includes(name)) {
        const message = `rule $${named(need.rule)} refers to itself; expected a finite grammar`;
        throw new GrammarError([{ file: need.by, line: need.line, message }]);
      }
      open.push(name);
      parts.set(name, expand(need));
      open.pop();
    }
    return network;
  };
  const island = expand({ file, rule });
  // A part was set after those that it refers to.
  return { island, parts: [...parts].map(([name, network]) => ({ name, network })) };
}

interface RuleName {
  readonly file: string;
  readonly rule: string;
}

/** A shared rule, and where it was referred to. */
interface Need extends RuleName {
  readonly by: string;
  readonly line: number;
}

function partName({ file, rule }: RuleName): string {
  return `$${file}#${rule}`;
}

function build(
  grammars: ReadonlyMap<string, Grammar>,
  { file, rule }: RuleName,
  reader: ReaderKind,
): { network: WordNetwork; needs: readonly Need[] } {
  const builder = new Builder(grammars, reader);
  const start = builder.state();
  const end = builder.state();
  builder.ref(file, rule, start, end, 0, 1, file);
  if (builder.problems.length > 0) throw new GrammarError(builder.problems);
  const network = mergeStates(trim({ states: builder.states, start, end, arcs: builder.arcs }));
  return { network, needs: [...builder.needs.values()] };
}

class Builder {
  states = 0;
  readonly arcs: Arc[] = [];
  readonly problems: GrammarProblem[] = [];
  /** Shared rules that were referred to, by part name. */
  readonly needs = new Map<string, Need>();
  private readonly open: string[] = [];
  /** The last reference that was followed. */
  private file = "";
  private line = 1;

  constructor(
    private readonly grammars: ReadonlyMap<string, Grammar>,
    private readonly reader: ReaderKind,
  ) {}

  state(): number {
    if (this.states >= MOST_STATES) {
      const message = `expected a grammar of at most ${MOST_STATES} states: rules or repeats multiply here`;
      throw new GrammarError([...this.problems, { file: this.file, line: this.line, message }]);
    }
    this.states += 1;
    return this.states - 1;
  }

  /** Adds what one rule says between two states. */
  ref(file: string, name: string, from: number, to: number, logp: number, line: number, by: string): void {
    const rule = this.rule(file, name, line, by);
    const key = `${file}#${name}`;
    if (!rule) return;
    [this.file, this.line] = [by, line];
    if (this.open.includes(key)) {
      this.problems.push({
        file: by,
        line,
        message: `rule $${named(name)} refers to itself; expected a finite grammar`,
      });
      return;
    }
    if (this.open.length >= DEEPEST) {
      const message = `expected at most ${DEEPEST} rules one inside the other, found more in $${named(name)}`;
      this.problems.push({ file: by, line, message });
      return;
    }
    if (this.reader === "ear" && this.named(file, "parser-only").has(name)) return;
    if (this.reader === "parser" && this.open.length > 0 && this.named(file, "shared").has(name)) {
      this.needs.set(partName({ file, rule: name }), { file, rule: name, by, line });
      this.arc(from, to, partName({ file, rule: name }), logp);
      return;
    }
    this.open.push(key);
    const inner = this.state();
    this.arc(from, inner, null, logp);
    this.add(file, rule.body, inner, to);
    this.open.pop();
  }

  private rule(file: string, name: string, line: number, by: string): Rule | undefined {
    const rule = this.grammars.get(file)?.rules.get(name);
    if (!rule)
      this.problems.push({
        file: by,
        line,
        message: `rule $${named(name)} is not defined in ${named(file)}: expected it there`,
      });
    else if (file !== by && !rule.isPublic) {
      this.problems.push({
        file: by,
        line,
        message: `rule $${named(name)} of ${named(file)} is not public: expected "public" before it`,
      });
    }
    return rule;
  }

  /** The rules of a file that one of its `meta` lines names. */
  private named(file: string, meta: "parser-only" | "shared"): ReadonlySet<string> {
    return new Set(this.grammars.get(file)?.meta.get(meta)?.words ?? []);
  }

  private add(file: string, part: Expansion, from: number, to: number): void {
    switch (part.kind) {
      case "token":
        this.words(part.word.split(/\s+/), from, to);
        return;
      case "tag":
        this.arc(from, to, null, 0, part.tag);
        return;
      case "ref":
        this.ref(part.file ?? file, part.rule, from, to, 0, part.line, file);
        return;
      case "special":
        if (part.name === "NULL") this.arc(from, to, null, 0);
        if (part.name === "GARBAGE" && this.reader === "parser") this.arc(from, to, ANY_WORD, 0);
        return;
      case "sequence": {
        let at = from;
        part.parts.forEach((inner, i) => {
          const next = i === part.parts.length - 1 ? to : this.state();
          this.add(file, inner, at, next);
          at = next;
        });
        return;
      }
      case "choice": {
        const heaviest = Math.max(...part.options.map((option) => option.weight));
        for (const option of part.options) {
          const inner = this.state();
          this.arc(from, inner, null, Math.log(option.weight / heaviest));
          this.add(file, option.of, inner, to);
        }
        return;
      }
      case "repeat":
        this.repeat(file, part, from, to);
    }
  }

  private repeat(file: string, part: Extract<Expansion, { kind: "repeat" }>, from: number, to: number): void {
    const most = part.max ?? Math.max(part.min, 1);
    // A state of its own, so that going round again cannot leave by another way out of `from`.
    let at = this.state();
    this.arc(from, at, null, 0);
    for (let i = 0; i < most; i += 1) {
      const next = this.state();
      this.add(file, part.of, at, next);
      if (i >= part.min) this.arc(at, to, null, 0);
      if (part.max === null && i === most - 1) this.arc(next, at, null, 0);
      at = next;
    }
    this.arc(at, to, null, 0);
  }

  private words(words: readonly string[], from: number, to: number): void {
    let at = from;
    words.forEach((word, i) => {
      const next = i === words.length - 1 ? to : this.state();
      this.arc(at, next, word, 0);
      at = next;
    });
  }

  private arc(from: number, to: number, word: string | null, logp: number, tag: string | null = null): void {
    // The ear needs words only; without the tags far more states are alike.
    this.arcs.push({ from, to, word, logp, tag: this.reader === "ear" ? null : tag });
  }
}

/** Drops states that no complete phrase passes through, and numbers the rest from 0. */
function trim(network: WordNetwork): WordNetwork {
  const forward = reach(network.start, network.arcs, (arc) => [arc.from, arc.to]);
  const backward = reach(network.end, network.arcs, (arc) => [arc.to, arc.from]);
  const numbers = new Map<number, number>();
  for (let s = 0; s < network.states; s += 1) {
    if ((forward.has(s) && backward.has(s)) || s === network.start || s === network.end)
      numbers.set(s, numbers.size);
  }
  const arcs: Arc[] = [];
  for (const arc of network.arcs) {
    const from = numbers.get(arc.from);
    const to = numbers.get(arc.to);
    if (from !== undefined && to !== undefined) arcs.push({ ...arc, from, to });
  }
  return {
    states: numbers.size,
    start: numbers.get(network.start) ?? 0,
    end: numbers.get(network.end) ?? 0,
    arcs,
  };
}

function reach(root: number, arcs: readonly Arc[], ends: (arc: Arc) => [number, number]): Set<number> {
  const next = new Map<number, number[]>();
  for (const arc of arcs) {
    const [from, to] = ends(arc);
    const list = next.get(from);
    if (list) list.push(to);
    else next.set(from, [to]);
  }
  const seen = new Set([root]);
  const queue = [root];
  for (let s = queue.pop(); s !== undefined; s = queue.pop()) {
    for (const to of next.get(s) ?? []) {
      if (!seen.has(to)) {
        seen.add(to);
        queue.push(to);
      }
    }
  }
  return seen;
}
