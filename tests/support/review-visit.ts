import { takeTurn } from "../../src/answer/turn.ts";
import type { Phrase } from "../../src/meaning/heard.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import { parser } from "./talk.ts";
import { head, time } from "./visits.ts";

type Heard = Partial<Phrase> & { readonly text: string; readonly at: number };

/** An invented visit with something of everything that a review has to look at. */
const HEARD: readonly Heard[] = [
  { at: 0, text: "static gas pressure seven" },
  { at: 30, text: "okay so high fire CO2 eight point two, CO forty", confidence: 0.97 },
  { at: 60, text: "half clockwise", confidence: 0.98 },
  { at: 80, text: "CO2 eight point three", confidence: 0.95 },
  {
    at: 150,
    text: "CO2 nine point one, CO forty",
    confidence: 0.87,
    rivals: [
      { text: "CO2 nine point one, CO fourteen", confidence: 0.11 },
      { text: "CO2 nine point nine, CO forty", confidence: 0.02 },
    ],
  },
  { at: 190, text: "low fire", confidence: 0.99 },
  { at: 260, text: "CO2 ninety two", confidence: 0.96 },
  { at: 290, text: "CO thirty", confidence: 0.96 },
  { at: 300, text: "no, thirty five", confidence: 0.96 },
  { at: 330, text: "panel is on", engine: "platform", confidence: 0.9 },
  { at: 360, text: "note the owner asks for a new filter", confidence: 0.99 },
  { at: 400, text: "finish visit", engine: "typed", confidence: 1 },
];

export function reviewVisit(changes: Partial<VisitHead> = {}): Visit {
  let visit: Visit = {
    format: "burnerside-visit/1",
    head: head({ title: "Otterfold mill, boiler room", units: "si", ...changes }),
    entries: [],
  };
  let ids = 0;
  for (const { at, ...heard } of HEARD) {
    const phrase = { engine: "offline", confidence: 1, sound: null, ...heard } as const;
    visit = takeTurn(parser, visit, phrase, time(at), () => `r${ids++}`).visit;
  }
  return visit;
}
