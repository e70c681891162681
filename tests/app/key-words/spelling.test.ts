import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ByFigures } from "../../../src/answer/by-figures.ts";
import {
  type Deed,
  OFF,
  readBackOf,
  type Spelling,
  type SpellingEvent,
  spell,
} from "../../../src/app/key-words/spelling.ts";
import { KEY_WORDS } from "../../../src/device/spotter/words.ts";

const ASKED: ByFigures = { quantity: "co2", firing: null, condition: null };

/**
 * Plays a line: words, "|" for the end of what is said, numbers for seconds that go by. What is said and done comes back, in
 * order: "beep", texts, and what is logged.
 */
function played(line: string, asked = ASKED): { done: string[]; spelling: Spelling } {
  let at = 0;
  let spelling = spell(OFF, { kind: "begin", asked, figures: [], at }).spelling;
  const done: string[] = [];
  const take = (event: SpellingEvent) => {
    const step = spell(spelling, event);
    spelling = step.spelling;
    done.push(...told(step.deed));
  };
  for (const token of line.split(" ")) {
    const word = KEY_WORDS.find((one) => one === token);
    if (word) take({ kind: "word", word, confidence: 0.9, at });
    else if (token === "|") take({ kind: "said", at });
    else {
      at += 1000 * Number(token);
      take({ kind: "time", at });
    }
  }
  return { done, spelling };
}

function told(deed: Deed): string[] {
  switch (deed.kind) {
    case "none":
      return [];
    case "tone":
      return ["beep"];
    case "say":
      return [deed.text];
    case "log":
      return [`logged ${deed.figures.map(({ word }) => word).join(" ")}`];
  }
}

const BACK = "CO2, nine point two?";

describe("figure by figure", () => {
  test.each<[string, string, string[]]>([
    [
      "given and confirmed",
      "| nine point two 2.5 | yes",
      ["beep", "beep", "beep", BACK, "logged nine point two"],
    ],
    ["a pause that is too short", "| nine 2.4 point 2.4", ["beep", "beep"]],
    ["no pause ends “nine point”", "| nine point 9.9", ["beep", "beep"]],
    ["a yes before the read-back is over", "| nine 3 yes | 1", ["beep", "CO2, nine?"]],
    ["a yes while figures come", "| nine yes 1", ["beep"]],
    [
      "no starts over",
      "| nine 3 | no | four 3 | yes",
      ["beep", "CO2, nine?", "CO2?", "beep", "CO2, four?", "logged four"],
    ],
    ["no takes all back", "| nine point no", ["beep", "beep", "CO2?"]],
    ["again says what is there", "| nine point again", ["beep", "beep", "CO2, nine point, and then?"]],
    ["again reads back", "| nine 3 | again | yes", ["beep", "CO2, nine?", "CO2, nine?", "logged nine"]],
    ["a yes over the second read-back", "| nine 3 | again yes", ["beep", "CO2, nine?", "CO2, nine?"]],
    [
      "a figure behind the read-back goes on",
      "| four 3 | zero 3 | yes",
      ["beep", "CO2, four?", "beep", "CO2, four zero?", "logged four zero"],
    ],
    ["stop leaves it", "| nine 3 | stop yes", ["beep", "CO2, nine?", "CO2 is not logged."]],
    ["a second minus is passed over", "| minus minus five 3", ["beep", "beep", "CO2, minus five?"]],
    ["nothing said, twice", "| 10 | 10 yes", ["CO2?", "CO2 is not logged."]],
    [
      "no answer, twice",
      "| nine 3 | 10 | 10 yes",
      ["beep", "CO2, nine?", "CO2, nine?", "CO2 is not logged."],
    ],
    ["what steers elsewhere does nothing", "| mark next high low 1", []],
  ])("%s", (_, line, done) => expect(played(line).done).toEqual(done));

  test("names the firing", () =>
    expect(played("| nine 3", { ...ASKED, firing: "low" }).done.at(-1)).toBe("Low fire CO2, nine?"));

  test("is left at once", () => {
    const { spelling } = played("| nine 3 |");
    expect(spell(spelling, { kind: "leave" })).toEqual({ spelling: OFF, deed: { kind: "none" } });
  });
});

test("whatever comes, nothing is logged but by a yes after the read-back of just that", () => {
  const word = fc
    .oneof(fc.constantFrom("yes", "nine", "no"), fc.constantFrom(...KEY_WORDS))
    .map((one) => ({ kind: "word", word: one, confidence: 0.9, at: 0 }) as const);
  const rest: SpellingEvent[] = [
    { kind: "begin", asked: ASKED, figures: [], at: 0 },
    { kind: "leave" },
    ...Array(8).fill({ kind: "said", at: 0 }),
    ...Array(12).fill({ kind: "time", at: 0 }),
  ];
  const step = fc.oneof<fc.Arbitrary<SpellingEvent>[]>(word, fc.constantFrom(...rest));
  let logged = 0;
  fc.assert(
    fc.property(
      fc.array(fc.tuple(step, fc.constantFrom(100, 3000, 3000, 11_000)), { minLength: 20, maxLength: 60 }),
      (steps) => {
        let spelling: Spelling = spell(OFF, { kind: "begin", asked: ASKED, figures: [], at: 0 }).spelling;
        let at = 0;
        // Since the last figure, "no" or read-back: the text that was read back, and whether to its end.
        let back: string | null = null;
        let heard = false;
        for (const [event, ms] of steps) {
          at += ms;
          if (spelling.kind === "off") {
            spelling = spell(spelling, { kind: "begin", asked: ASKED, figures: [], at }).spelling;
            back = null;
          }
          const { spelling: next, deed } = spell(spelling, event.kind === "leave" ? event : { ...event, at });
          if (deed.kind === "log") {
            logged += 1;
            expect(event).toMatchObject({ kind: "word", word: "yes" });
            expect(heard).toBe(true);
            expect(back).toBe(readBackOf(deed));
          }
          if (event.kind === "said") heard = true;
          if (deed.kind === "say") [back, heard] = [deed.text, false];
          else if (event.kind === "begin" || deed.kind === "tone") back = null;
          spelling = next;
        }
      },
    ),
    { numRuns: 1000, seed: 9 },
  );
  // It is reached at all.
  expect(logged).toBeGreaterThan(20);
});
