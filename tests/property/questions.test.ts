import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spokenAmount } from "../../src/judge/turns.ts";
import { refusal } from "../../src/measure/quantity.ts";
import { spokenNumber } from "../../src/measure/show.ts";
import { isOnly } from "../../src/visit/answers.ts";
import type { EntryBody, Reading } from "../../src/visit/entry.ts";
import { foldVisit, step } from "../../src/visit/fold.ts";
import { openQuestion } from "../../src/visit/questions.ts";
import type { VisitState } from "../../src/visit/state.ts";
import { Visit } from "../../src/visit/visit.ts";
import { dialogue } from "../support/dialogue.ts";

/** Readings, answers, corrections and talk, with every number that each can be heard to say. */
const POOL: Readonly<Record<string, readonly number[]>> = {
  CO2: [],
  CO: [],
  "room CO": [],
  oxygen: [],
  "static gas pressure": [],
  "high fire CO2": [],
  "nine point two": [9.2],
  "nine two": [9.2, 92],
  "fifty four hundred": [5400],
  "ninety two": [92],
  forty: [40],
  "seven inches": [7],
  "minus five": [-5],
  "ninety nine thousand": [99_000],
  "CO2 nine point one": [9.1],
  "CO2 ninety two": [92],
  "CO two ten": [10, 210],
  "CO nine point two": [9.2],
  "high fire CO2 nine CO forty": [9, 40],
  "CO2 eight point six low": [8.6],
  "CO2 nine high fire and eight point eight low fire": [9, 8.8],
  "two cubic feet in 45 seconds": [2, 45],
  "quarter turn": [0.25],
  "low screw a tenth": [0.1],
  "half a turn in": [0.5],
  "no, an eighth": [0.125],
  clockwise: [],
  out: [],
  "the high one": [],
  low: [],
  yes: [],
  no: [],
  "yes, nine point three": [9.3],
  "no, nine point four": [9.4],
  "no, ninety": [90],
  "no, the CO was fifty": [50],
  "scratch that": [],
  "strike that turn": [],
  "strike that CO": [],
  "CO alarm": [],
  "scratch that CO alarm": [],
  "no, out": [],
  "no, the other way": [],
  "no, that was the low screw": [],
  "no, that was low fire": [],
  "no, low fire": [],
  "no, static": [],
  "that's in millibar": [],
  "no, fahrenheit": [],
  "high fire": [],
  "low fire": [],
  "cap isn't on yet": [],
  "hand me the torch": [],
};

const script = fc.array(fc.tuple(fc.constantFrom(...Object.keys(POOL)), fc.constantFrom(1, 1, 1, 0.5)), {
  maxLength: 14,
});
type Script = readonly (readonly [phrase: string, confidence: number])[];

const play = (said: Script) =>
  dialogue(
    said.map(([phrase]) => phrase),
    {},
    (place) => said[place]?.[1] ?? 1,
  );

/** Each step with the state before it, the state after it, and the question last asked aloud. */
function steps(said: Script) {
  const { visit, steps } = play(said);
  let state = foldVisit({ ...visit, entries: [] });
  let asked = "";
  return steps.map((each) => {
    const before = { state, asked };
    state = each.entries.reduce(step, state);
    asked = /[^.?]*\?$/.exec(each.answer)?.[0] ?? asked;
    return { ...each, before, after: state };
  });
}

function readingIn(body: EntryBody): Reading | null {
  if (body.kind === "reading") return body;
  return body.kind === "replace" && body.with.kind === "reading" ? body.with : null;
}

/** The numbers that an entry logs, each with how a question would say it; what a mend leaves as it was is not new. */
function logged(body: EntryBody, state: VisitState): (readonly [number: number, spoken: string])[] {
  const old = body.kind === "replace" ? state.items.find(({ id }) => id === body.target)?.body : undefined;
  const turn = body.kind === "replace" ? body.with : body;
  if (turn.kind === "adjustment") {
    if (old?.kind === "adjustment" && Math.abs(old.turns) === Math.abs(turn.turns)) return [];
    return [[Math.abs(turn.turns), spokenAmount(turn.turns)]];
  }
  const reading = readingIn(body);
  if (!reading || (old?.kind === "reading" && old.value === reading.value)) return [];
  // A mended reading keeps the dial that it was taken with.
  const dial = body.kind === "reading" && reading.dial ? [reading.dial.value] : [];
  return [reading.value, ...dial].map((number) => [number, spokenNumber(number)]);
}

const always = (holds: (said: Script) => void) => fc.assert(fc.property(script, holds), { numRuns: 400 });

// A busy machine takes its time over the judge.
describe("whatever is asked and answered", { timeout: 60_000 }, () => {
  it("no reading is outside its bounds", () => {
    always((said) => {
      for (const { entries } of steps(said)) {
        for (const { body } of entries) {
          const reading = readingIn(body);
          if (reading) expect(refusal(reading.quantity, reading.value, reading.unit)).toBeNull();
        }
      }
    });
  });

  it("every number logged was said in that phrase, or asked about aloud and still open", () => {
    always((said) => {
      for (const { phrase, entries, before } of steps(said)) {
        for (const [number, spoken] of entries.flatMap(({ body }) => logged(body, before.state))) {
          if (POOL[phrase]?.includes(number)) continue;
          expect(openQuestion(before.state), `${number} after "${phrase}"`).not.toBeNull();
          expect(before.asked.toLowerCase()).toContain(spoken);
        }
      }
    });
  });

  it("the open question is the one asked last, and one that asks for something missing takes no yes", () => {
    always((said) => {
      for (const { phrase, answer, entries, before, after } of steps(said)) {
        const open = openQuestion(after);
        if (answer.endsWith("?")) expect(open).not.toBeNull();
        if (open && open.id !== openQuestion(before.state)?.id) expect(answer).toMatch(/\?$/);
        const asked = openQuestion(before.state)?.unsure;
        if (phrase === "yes" && asked?.question && !isOnly(asked)) {
          expect(entries).toEqual([]);
          // Warnings come first.
          expect(answer.endsWith(before.asked.trim())).toBe(true);
        }
      }
    });
  });

  it("entry by entry, and read from a stored bundle, the state is the same", () => {
    always((said) => {
      const { visit } = play(said);
      const last = steps(said).at(-1)?.after ?? foldVisit(visit);
      expect(last).toEqual(foldVisit(visit));
      expect(foldVisit(Visit.parse(JSON.parse(JSON.stringify(visit))))).toEqual(last);
    });
  });
});
