import { takeTurn } from "../../src/answer/turn.ts";
import { loadLanguage } from "../../src/cli/language.ts";
import { createParser, type Parser } from "../../src/meaning/parser.ts";
import type { Entry } from "../../src/visit/entry.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import { spokenLog } from "./spoken-log.ts";
import { head, time, typed } from "./visits.ts";

const parser = createParser(loadLanguage());

/** What one phrase of a dialogue brought. */
export interface Step {
  readonly phrase: string;
  readonly answer: string;
  readonly entries: readonly Entry[];
}

/** A visit without limits in which these phrases were said, ten seconds apart, as sure as given. */
export function dialogue(
  phrases: readonly string[],
  changes: Partial<VisitHead> = {},
  confidence: (place: number) => number = () => 1,
): { visit: Visit; steps: readonly Step[]; answer: string; log: string } {
  let visit: Visit = { format: "burnerside-visit/1", head: head({ sheet: null, ...changes }), entries: [] };
  let ids = 0;
  const steps = phrases.map((phrase, i): Step => {
    const ears: Parser = { parse: (text, context) => parser.parse(text, context, confidence(i)) };
    const turn = takeTurn(ears, visit, typed(phrase), time(10 * i), () => `e${ids++}`);
    visit = turn.visit;
    return { phrase, answer: turn.reply.answer, entries: turn.entries };
  });
  return { visit, steps, answer: steps.at(-1)?.answer ?? "", log: spokenLog(visit) };
}
