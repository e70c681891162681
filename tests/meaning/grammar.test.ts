import { describe, expect, it } from "vitest";
import { readLanguageFolder } from "../../src/cli/language.ts";
import { readGrammar } from "../../src/meaning/abnf/read.ts";
import { ambiguousNumbers } from "../../src/meaning/ambiguity.ts";
import { compileLanguage } from "../../src/meaning/compile.ts";
import type { WordNetwork } from "../../src/meaning/network.ts";

const HEADER = "#ABNF 1.0 UTF-8;\nlanguage en-US;\nroot $utterance;\ntag-format <semantics/1.0-literals>;\n";

/** Compiles a language of one file, every word pronounced. */
function compile(rules: string, more: Record<string, string> = {}) {
  const words = "one two three four high fire a b c".split(" ").map((word) => `${word}  AH`);
  return compileLanguage({
    "utterance.abnf": HEADER + rules,
    "lexicon.dict": words.join("\n"),
    "confusions.txt": "",
    ...more,
  });
}

/** Every phrase that a finite network says, up to a length, with its tags in brackets. */
function phrases({ arcs, start, end }: WordNetwork, longest = 4): string[] {
  const out = new Set<string>();
  const walk = (at: number, said: string[], tags: string[], empty: number): void => {
    if (at === end) out.add([...said, ...tags.map((tag) => `[${tag}]`)].join(" "));
    for (const arc of arcs.filter(({ from }) => from === at)) {
      const words = arc.word === null ? said : [...said, arc.word];
      if (words.length > longest || empty > 20) continue;
      walk(arc.to, words, arc.tag === null ? tags : [...tags, arc.tag], arc.word === null ? empty + 1 : 0);
    }
  };
  walk(start, [], [], 0);
  return [...out].sort();
}

/** So many rules, each of the next and nothing else, a number of times. */
function chain(rules: number, times: number): string {
  const each = Array.from({ length: rules }, (_, at) => `$a${at} = ${`$a${at + 1} `.repeat(times)};`);
  return `${each.join(" ")} $a${rules} = one;`;
}

describe("what an SRGS expansion says (W3C SRGS 1.0, sections 2.1 to 2.7)", () => {
  it.each([
    ["a sequence", "one two", ["one two"]],
    ["alternatives", "one | two three", ["one", "two three"]],
    ["weights, which change no phrase", "/2/ one | /0.5/ two", ["one", "two"]],
    ["an option", "one [two]", ["one", "one two"]],
    ["a group", "(one | two) three", ["one three", "two three"]],
    ["a repeat of exactly two", "one <2>", ["one one"]],
    ["a repeat of one to three", "one <1-3>", ["one", "one one", "one one one"]],
    ["a repeat without end", "one <1->", ["one", "one one", "one one one", "one one one one"]],
    ["an optional repeat", "two one <0-1>", ["two", "two one"]],
    ["a quoted token of two words", '"high fire"', ["high fire"]],
    ["literal tags", "one {x} two {!{y}!}", ["one two [x] [y]"]],
    ["$NULL", "one $NULL two", ["one two"]],
    ["$VOID", "one | two $VOID", ["one"]],
    ["a rule", "$digit three; $digit = one | two", ["one three", "two three"]],
    ["comments", "one // two\n /* three */ four", ["one four"]],
  ])("%s", (_, body, expected) => {
    const rules = `public $utterance = $island; public $island = ${body};`;
    expect(phrases(compile(rules).island)).toEqual(expected);
  });

  it("a rule of another file, when public", () => {
    const more = { "n.abnf": "#ABNF 1.0;\nlanguage en-US;\npublic $n = one | two;" };
    const language = compile("public $utterance = $island; public $island = $<n.abnf#n> three;", more);
    expect(phrases(language.island)).toEqual(["one three", "two three"]);
  });

  it("loops only where the repeat is, not around its neighbours", () => {
    const rules = "public $utterance = $island; public $island = [one <1->] two | three;";
    expect(phrases(compile(rules).island, 3)).toEqual(["one one two", "one two", "three", "two"]);
  });

  it("leaves the rules named parser-only out of the recogniser's graph", () => {
    const rules =
      'meta "parser-only" is "typed"; public $utterance = $island; public $island = one | $typed; $typed = two;';
    const { island, utterance } = compile(rules);
    expect(phrases(island)).toEqual(["one", "two"]);
    expect(phrases(utterance)).toEqual(["one"]);
  });
});

describe("faults are build errors with file and line", () => {
  const rules = "public $utterance = $island;\npublic $island = one;\n";
  it.each([
    [
      "an undefined rule",
      "public $utterance = $island;\npublic $island = $gone;",
      "utterance.abnf:6: rule $gone is not defined in utterance.abnf",
    ],
    [
      "a rule nothing reaches",
      `${rules}$spare = two;`,
      "utterance.abnf:7: rule $spare is reached by nothing",
    ],
    ["a rule twice", `${rules}public $island = two;`, "utterance.abnf:7: rule $island is defined twice"],
    [
      "a rule in itself",
      "public $utterance = $island;\npublic $island = one [$island];",
      "utterance.abnf:6: rule $island refers to itself; expected a finite grammar",
    ],
    [
      "a word without a pronunciation",
      "public $utterance = $island;\npublic $island = one\n zebra;",
      'utterance.abnf:7: "zebra" has no pronunciation',
    ],
    [
      "a missing semicolon",
      "public $utterance = $island\npublic $island = one;",
      'utterance.abnf:6: expected words, a rule or a tag, found "="',
    ],
    [
      "an open bracket",
      "public $utterance = $island;\npublic $island = (one;",
      'utterance.abnf:6: expected ")", found ";"',
    ],
    [
      "a weight of nothing",
      "public $utterance = $island;\npublic $island = /0/ one | two;",
      "utterance.abnf:6: expected a weight above zero",
    ],
    [
      "a meta that names no rule",
      `${rules}meta "parser-only" is "island spare";`,
      'utterance.abnf:7: meta "parser-only" names $spare, which is not defined here',
    ],
    [
      "a shared rule in itself",
      'meta "shared" is "a b";\npublic $utterance = $island;\npublic $island = $a;\n$a = one [$b];\n$b = two [$a];',
      "utterance.abnf:9: rule $a refers to itself; expected a finite grammar",
    ],
    [
      "a shared rule in itself that the recogniser leaves out",
      'meta "shared" is "a b";\nmeta "parser-only" is "a";\npublic $utterance = $island;\npublic $island = one | $a;\n$a = one [$b];\n$b = two [$a];',
      "utterance.abnf:10: rule $a refers to itself; expected a finite grammar",
    ],
    [
      "a rule in itself inside a shared rule",
      'meta "shared" is "a";\npublic $utterance = $island;\npublic $island = $a;\n$a = one $b;\n$b = two [$b];',
      "utterance.abnf:9: rule $b refers to itself; expected a finite grammar",
    ],
    [
      "an undefined rule inside a shared rule",
      'meta "shared" is "a";\npublic $utterance = $island;\npublic $island = $a;\n$a = one $gone;',
      "utterance.abnf:8: rule $gone is not defined in utterance.abnf",
    ],
    [
      "a shared rule that is not there",
      `${rules}meta "shared" is "island gone";`,
      'utterance.abnf:7: meta "shared" names $gone, which is not defined here',
    ],
    [
      "an empty rule",
      "public $utterance = $island;\npublic $island = ;",
      "utterance.abnf:6: expected words, a rule or a tag",
    ],
    [
      "brackets one inside the other without end",
      `public $utterance = $island;\npublic $island = ${"(".repeat(5000)}one;`,
      "utterance.abnf:6: expected at most 64 brackets one inside the other",
    ],
    [
      "rules one inside the other without end",
      `public $utterance = $island;\npublic $island = $a0;\n${chain(5000, 1)}`,
      "utterance.abnf:7: expected at most 64 rules one inside the other, found more in $a62",
    ],
    [
      "rules that double",
      `public $utterance = $island;\npublic $island = $a0;\n${chain(40, 2)}`,
      "utterance.abnf:7: expected a grammar of at most 150000 states: rules or repeats multiply here",
    ],
    [
      "a repeat beyond all phrases",
      "public $utterance = $island;\npublic $island = one <0-99999999>;",
      "utterance.abnf:5: expected a grammar of at most 150000 states",
    ],
    [
      "what steers a terminal",
      `${rules}\u001b[31m\u202e`,
      'utterance.abnf:7: expected a declaration or a rule, found "\\u001b"',
    ],
  ])("%s", (_, text, message) => {
    expect(() => compile(text)).toThrow(message);
  });

  it("a long rule is none", () => {
    const rule = `public $utterance = $island; public $island = one <0-20000>;`;
    expect(compile(rule).utterance.arcs.filter(({ word }) => word === "one")).toHaveLength(20_000);
  });

  it.each([
    ["lexicon.dict", "one  AH\ntwo  T UUU", 'lexicon.dict:2: "two": expected ARPAbet phones, found "UUU"'],
    [
      "confusions.txt",
      "# list\nhi > high",
      'confusions.txt:2: expected "heard => meant cost", found "hi > high"',
    ],
    ["n.abnf", "language en-US;", 'n.abnf:1: expected the header "#ABNF 1.0 UTF-8;"'],
    ["n.abnf", "#ABNF 1.0;\nlanguage en-US;\n$n = one;", "n.abnf:3: rule $n is reached by nothing"],
  ])("a fault in %s", (file, text, message) => {
    expect(() => compile(rules, { [file]: text })).toThrow(message);
  });

  it("a private rule of another file", () => {
    const more = { "n.abnf": "#ABNF 1.0;\nlanguage en-US;\n$n = one;" };
    expect(() => compile("public $utterance = $island; public $island = $<n.abnf#n>;", more)).toThrow(
      "rule $n of n.abnf is not public",
    );
  });
});

describe("an ambiguity that costs a number is a build error", () => {
  const build = (number: string, quantity = "co2") =>
    compile(
      `public $utterance = $island;\npublic $island = a {quantity ${quantity}} $number;\nmeta "shared" is "number";\n$number = ${number};`,
    );
  const both = "one {+1} two {+2}";
  it.each([
    [
      "two values, one weight",
      `${both} | one {+1} {.} two {+2}`,
      "co2",
      'utterance.abnf:8: rule $number reads "one two" as 1.2 or 3, either possible for co2',
    ],
    ["weights too near each other", `${both} | /0.5/ one {+1} {.} two {+2}`, "co2", "as 3 or 1.2"],
    [
      "a third way that says what the first does",
      "one {+2} two | one {+1} {+1} two | one {+3} two",
      "co2",
      "as 2 or 3",
    ],
    ["in the middle of more words", `three {+3} [one {.} {+5} | one {.} {+7}] four`, "co2", "as 3.5 or 3.7"],
  ])("%s", (_, number, quantity, message) => expect(() => build(number, quantity)).toThrow(message));

  it.each([
    ["weights that tell them apart", `${both} | /0.1/ one {+1} {.} two {+2}`, "co2"],
    ["the same value twice", `${both} | one {+3} two`, "co2"],
    ["other words", `one {+1} | two {+2} | one {+1} {x10} two {+2}`, "co2"],
    ["only one is possible for the quantity", `one {+40} two | one {+4} two`, "co2"],
    ["instruments show whole numbers", `one {+4} {.} two {+5} | one {+45} two`, "co"],
    ["no number at all", `one | two`, "co2"],
  ])("not: %s", (_, number, quantity) => expect(() => build(number, quantity)).not.toThrow());
});

describe("the grammar as shipped", () => {
  const files = readLanguageFolder();

  it("compiles, and every word of the recogniser's graph has a pronunciation", () => {
    const { utterance, lexicon } = compileLanguage(files);
    const words = new Set(utterance.arcs.flatMap(({ word }) => (word === null ? [] : [word])));
    expect(words.size).toBeGreaterThan(100);
    expect([...words].filter((word) => !Object.hasOwn(lexicon, word))).toEqual([]);
  });

  it("says no number of up to four words in two ways that cannot be told apart", () => {
    const grammars = Object.entries(files).filter(([name]) => name.endsWith(".abnf"));
    const read = new Map(grammars.map(([name, text]) => [name, readGrammar(name, text)]));
    expect(ambiguousNumbers(read, compileLanguage(files).parts, 4)).toEqual([]);
  });

  it("carries weights as logarithms of at most 0", () => {
    const { utterance, island } = compileLanguage(files);
    for (const { logp } of [...utterance.arcs, ...island.arcs]) expect(logp).toBeLessThanOrEqual(0);
  });

  it.each(Object.keys(files).filter((name) => name.endsWith(".abnf")))(
    "%s declares the literal tags it uses",
    (name) => {
      const grammar = readGrammar(name, files[name] ?? "");
      expect(grammar.language).toBe("en-US");
      expect(files[name]).toContain("tag-format <semantics/1.0-literals>;");
    },
  );
});

it("gathers what the files say of their words beside the rules", () => {
  const meta = 'meta "joints" is "and plus"; meta "plurals" is "s";\n';
  const { hints } = compile(`${meta}public $utterance = $island;\npublic $island = one;\n`);
  expect(hints).toEqual({
    magnitudes: [],
    joints: ["and", "plus"],
    points: [],
    numerals: [],
    plurals: ["s"],
    singulars: [],
  });
});
