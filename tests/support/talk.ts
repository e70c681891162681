import type { Talkativeness } from "../../src/answer/talk.ts";
import { type Turn, takeTurn } from "../../src/answer/turn.ts";
import { loadLanguage } from "../../src/cli/language.ts";
import type { Item, Unsure } from "../../src/meaning/item.ts";
import { createParser, type Parser } from "../../src/meaning/parser.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import { head, meaningOf, type Said, time, typed } from "./visits.ts";

export const parser = createParser(loadLanguage());

/** Says phrases one after the other, a hundred seconds apart unless "@seconds " stands before. */
export function talk(
  phrases: readonly string[],
  changes: Partial<VisitHead> = {},
  level?: Talkativeness,
  ears: Parser = parser,
): { turns: Turn[]; visit: Visit; at: number } {
  let visit: Visit = { format: "burnerside-visit/1", head: head(changes), entries: [] };
  let ids = 0;
  let at = 0;
  let asked: Turn["asked"] = [];
  const turns = phrases.map((phrase) => {
    const [, seconds, text = phrase] = /^@(\d+) (.*)$/.exec(phrase) ?? [];
    at = seconds === undefined ? at + 100 : Number(seconds);
    const turn = takeTurn(ears, visit, typed(text), time(at), () => `e${ids++}`, level, asked);
    ({ visit, asked } = turn);
    return turn;
  });
  return { turns, visit, at };
}

/** The answer to the last phrase. */
export function answer(
  phrases: readonly string[],
  changes: Partial<VisitHead> = {},
  level?: Talkativeness,
): string | undefined {
  return talk(phrases, changes, level).turns.at(-1)?.reply.answer;
}

/** An answer without the value that a turn is expected to bring: what it is, is for the tests of the judge. */
export function withoutExpectation(text: string | undefined): string | undefined {
  return text?.replace(/expect [a-z ]+,/, "expect …,");
}

/** The turns of a script of meanings, at its own times. */
export function played(
  script: readonly Said[],
  changes: Partial<VisitHead> = {},
  level?: Talkativeness,
): Turn[] {
  // An ear for given meanings: the phrase is the number of the utterance.
  const stub: Parser = { parse: (text) => meaningOf(...things(script[Number(text)])) };
  return talk(
    script.map(([seconds], i) => `@${seconds} ${i}`),
    changes,
    level,
    stub,
  ).turns;
}

function things(said: Said | undefined): (Item | Unsure)[] {
  return said ? said.slice(1).filter((thing) => typeof thing !== "number") : [];
}
