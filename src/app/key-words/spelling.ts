import { type ByFigures, namedByFigures } from "../../answer/by-figures.ts";
import type { KeyWord } from "../../device/spotter/words.ts";
import { type Figure, isFigureWord, isWhole, mayFollow, wordsOf } from "./figures.ts";

/** Where a value that is given figure by figure stands. Times are milliseconds of a clock that nobody can set. */
export type Spelling =
  | { readonly kind: "off" }
  /** `since`: the last figure, or the end of what was asked. `asks`: how often nothing came. */
  | (Given & { readonly kind: "taking" })
  /** `heard`: whether it was read back to its end: only then a "yes" is of it. */
  | (Given & { readonly kind: "reading-back"; readonly heard: boolean });

interface Given {
  readonly asked: ByFigures;
  readonly figures: readonly Figure[];
  readonly since: number;
  readonly asks: number;
}

export type SpellingEvent =
  /** `figures`: those that were given before it began. What asks for them is being said. */
  | {
      readonly kind: "begin";
      readonly asked: ByFigures;
      readonly figures: readonly Figure[];
      readonly at: number;
    }
  | { readonly kind: "word"; readonly word: KeyWord; readonly confidence: number; readonly at: number }
  /** What was to be said last is over. */
  | { readonly kind: "said"; readonly at: number }
  | { readonly kind: "time"; readonly at: number }
  | { readonly kind: "leave" };

/** What is to be done after an event. */
export type Deed =
  | { readonly kind: "none" }
  | { readonly kind: "tone" }
  | { readonly kind: "say"; readonly text: string }
  /** The person said yes to just this. */
  | { readonly kind: "log"; readonly asked: ByFigures; readonly figures: readonly Figure[] };

export interface Step {
  readonly spelling: Spelling;
  readonly deed: Deed;
}

export const OFF: Spelling = { kind: "off" };

/** After so long without another figure the number may be whole, ms. */
const PAUSE_MS = 2500;
/** So long a figure, or a yes, is waited for, ms. */
const PATIENCE_MS = 10_000;

const NONE: Deed = { kind: "none" };

/** One event on. Pure; nothing is logged but by a "yes" after the value was read back, and no figure came since. */
export function spell(spelling: Spelling, event: SpellingEvent): Step {
  if (event.kind === "leave") return { spelling: OFF, deed: NONE };
  if (event.kind === "begin") {
    const { asked, figures, at } = event;
    return { spelling: { kind: "taking", asked, figures, since: at, asks: 0 }, deed: NONE };
  }
  switch (spelling.kind) {
    case "off":
      return { spelling, deed: NONE };
    case "taking":
    case "reading-back":
      switch (event.kind) {
        case "said":
          return { spelling: afterSaid(spelling, event.at), deed: NONE };
        case "word":
          return word(spelling, event);
        case "time":
          return spelling.kind === "taking" ? waits(spelling, event.at) : waitsForYes(spelling, event.at);
      }
  }
}

/** "CO2, nine point two?": what a yes will be of. */
export function readBackOf({ asked, figures }: Pick<Given, "asked" | "figures">): string {
  return `${namedByFigures(asked)}, ${wordsOf(figures)}?`;
}

type Open = Exclude<Spelling, { kind: "off" }>;
type Taking = Extract<Spelling, { kind: "taking" }>;
type ReadingBack = Extract<Spelling, { kind: "reading-back" }>;

function afterSaid(spelling: Open, at: number): Spelling {
  return spelling.kind === "taking" ? { ...spelling, since: at } : { ...spelling, heard: true, since: at };
}

function word(
  spelling: Open,
  { word: said, confidence, at }: Extract<SpellingEvent, { kind: "word" }>,
): Step {
  if (isFigureWord(said)) {
    if (!mayFollow(spelling.figures, said)) return { spelling, deed: NONE };
    const figures = [...spelling.figures, { word: said, confidence }];
    return { spelling: taking(spelling, figures, at, 0), deed: { kind: "tone" } };
  }
  switch (said) {
    case "yes": {
      if (spelling.kind !== "reading-back" || !spelling.heard) return { spelling, deed: NONE };
      const { asked, figures } = spelling;
      return { spelling: OFF, deed: { kind: "log", asked, figures } };
    }
    case "no":
      return asksFor(taking(spelling, [], at, 0));
    case "again":
      return spelling.kind === "reading-back"
        ? readsBack(spelling, at, spelling.asks)
        : asksFor(taking(spelling, spelling.figures, at, spelling.asks));
    case "stop":
      return { spelling: OFF, deed: leaves(spelling) };
    case "high":
    case "low":
    case "mark":
    case "next":
      return { spelling, deed: NONE };
  }
}

function waits(spelling: Taking, at: number): Step {
  const waited = at - spelling.since;
  if (isWhole(spelling.figures) && waited >= PAUSE_MS) return readsBack(spelling, at, 0);
  if (waited < PATIENCE_MS) return { spelling, deed: NONE };
  if (spelling.asks > 0) return { spelling: OFF, deed: leaves(spelling) };
  return asksFor(taking(spelling, spelling.figures, at, 1));
}

function waitsForYes(spelling: ReadingBack, at: number): Step {
  if (!spelling.heard || at - spelling.since < PATIENCE_MS) return { spelling, deed: NONE };
  if (spelling.asks > 0) return { spelling: OFF, deed: leaves(spelling) };
  return readsBack(spelling, at, 1);
}

function taking({ asked }: Open, figures: readonly Figure[], since: number, asks: number): Taking {
  return { kind: "taking", asked, figures, since, asks };
}

/** "CO2?", or "CO2, nine point, and then?" */
function asksFor(spelling: Taking): Step {
  const name = namedByFigures(spelling.asked);
  const text =
    spelling.figures.length === 0 ? `${name}?` : `${name}, ${wordsOf(spelling.figures)}, and then?`;
  return { spelling, deed: { kind: "say", text } };
}

function readsBack({ asked, figures }: Open, at: number, asks: number): Step {
  const spelling = { kind: "reading-back", asked, figures, since: at, asks, heard: false } as const;
  return { spelling, deed: { kind: "say", text: readBackOf(spelling) } };
}

function leaves({ asked }: Open): Deed {
  return { kind: "say", text: notLogged(asked) };
}

/** What is said where nothing came of it. */
export function notLogged(asked: ByFigures): string {
  return `${namedByFigures(asked)} is not logged.`;
}
