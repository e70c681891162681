import { loadLanguage } from "../../../src/cli/language.ts";
import { createParser } from "../../../src/meaning/parser.ts";
import { exportVisit } from "../../../src/record/bundle.ts";
import { entriesOf } from "../../../src/visit/enter.ts";
import { foldVisit, step } from "../../../src/visit/fold.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { head, time, typed } from "../../support/visits.ts";

/** What a day of trouble with one boiler sounds like, over and over; the numbers move a little each round. */
const ROUND = [
  "gas pressure dynamic 7.1 inches",
  "high fire CO2 9.{d}, CO {c}",
  "turned the high fire screw a tenth clockwise",
  "CO2 9.{d}, CO {c}",
  "note the burner hums at the start, looks like the flue was resealed",
  "low fire",
  "CO2 9.{e}, CO {c}",
  "scratch that",
  "low fire CO2 9.{e}",
  "flue temperature 6{d} celsius",
];

/** A visit of this many entries, as a bundle, built by the parser and the rules that the app itself uses. */
export function longVisit(entries: number): string {
  const parser = createParser(loadLanguage());
  let visit: Visit = {
    format: "burnerside-visit/1",
    head: head({ id: "long-visit", title: "Long" }),
    entries: [],
  };
  let state = foldVisit(visit);
  for (let turn = 0; visit.entries.length < entries; turn += 1) {
    const text = (ROUND[turn % ROUND.length] ?? "")
      .replace("{c}", String(35 + (turn % 23)))
      .replace("{d}", String(turn % 7))
      .replace("{e}", String(turn % 5));
    const at = time(turn * 45);
    const more = entriesOf(parser.parse(text), typed(text), state, at, () => `e${turn}-${ids++}`);
    state = more.reduce(step, state);
    visit = { ...visit, entries: [...visit.entries, ...more] };
  }
  return exportVisit(visit);
}

let ids = 0;
