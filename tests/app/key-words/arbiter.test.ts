import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Arbiter, type ArbiterEvent, arbitrate, IDLE } from "../../../src/app/key-words/arbiter.ts";

type Weight = Extract<ArbiterEvent, { kind: "phrase" }>["weight"];

/**
 * Plays a line; numbers are seconds from the start. "yes@1": a key word, "understood@1.5-0.8": a phrase at 1.5 whose sound began at
 * 0.8 ("!" behind it: it stands alone), "voice@1", "time@2". What counts comes back: "key yes", "phrase".
 */
function played(line: string): string[] {
  let arbiter: Arbiter = IDLE;
  return line.split(" ").flatMap((token) => {
    const [what = "", when = ""] = token.split("@");
    const [at = 0, began = 0] = when
      .replace("!", "")
      .split("-")
      .map((seconds) => 1000 * Number(seconds));
    const ruling = arbitrate(arbiter, eventOf(what, at, began, when.endsWith("!")));
    arbiter = ruling.arbiter;
    return [...(ruling.takes ? ["phrase"] : []), ...ruling.counts.map(({ word }) => `key ${word}`)];
  });
}

function eventOf(what: string, at: number, began: number, standsAlone: boolean): ArbiterEvent {
  switch (what) {
    case "understood":
    case "unsure":
    case "nothing":
      return { kind: "phrase", weight: what satisfies Weight, standsAlone, began, at };
    case "voice":
    case "time":
      return { kind: what, at };
    case "yes":
    case "no":
    case "nine":
      return { kind: "word", heard: { word: what, chance: 0.9, at } };
    default:
      throw new Error(`Expected an event, not ${what}.`);
  }
}

describe("of what both heard", () => {
  test.each<[string, string, string[]]>([
    ["the phrase that was understood goes first", "yes@1 understood@1.3-0.5 time@3", ["phrase"]],
    ["and also where the spotter is the slower one", "understood@1-0.3 yes@1.5 time@3", ["phrase"]],
    ["a phrase that was rejected leaves it to the key word", "yes@1 nothing@1.3-0.5 time@3", ["key yes"]],
    ["and so does one that would be asked about", "yes@1 unsure@1.3-0.5 time@3", ["key yes"]],
    ["where nothing was heard the key word counts in 1.2 s", "yes@1 time@2.1 time@2.2", ["key yes"]],
    ["while a voice goes on it waits", "yes@1 voice@2.1 time@2.2 time@2.5", ["key yes"]],
    ["but not for ever", "yes@1 voice@4.9 time@4.95 voice@5 time@5", ["key yes"]],
    ["figures wait for each other", "nine@1 nine@2 time@2.5 time@3.2", ["key nine", "key nine"]],
    ["an unsure phrase alone is taken", "unsure@1-0.3 yes@1.5 time@3", ["phrase"]],
    ["a phrase of nothing alone is passed on", "nothing@1-0.3", ["phrase"]],
    ["a word behind a phrase of nothing counts", "nothing@1-0.3 yes@1.2 time@2.5", ["phrase", "key yes"]],
    ["the phrase that comes too late is dropped", "yes@1 time@2.2 understood@2.5-0.4", ["key yes"]],
    ["unless it means the same anyhow", "yes@1 time@2.2 understood@2.5-0.4!", ["key yes", "phrase"]],
    ["the phrase after it is taken", "yes@1 time@2.2 understood@3-1.4", ["key yes", "phrase"]],
  ])("%s", (_, line, counts) => expect(played(line)).toEqual(counts));
});

test("whatever comes, a word counts once at most, and never with a phrase of the same stretch", () => {
  const event = fc.oneof(
    fc.constantFrom("yes", "no", "nine").map((word) => ({ kind: "word", word }) as const),
    fc
      .constantFrom<Weight[]>("understood", "unsure", "nothing")
      .map((weight) => ({ kind: "phrase", weight }) as const),
    fc.constantFrom("voice", "time").map((kind) => ({ kind }) as const),
  );
  const row = fc.array(fc.tuple(event, fc.integer({ min: 1, max: 1500 })), { maxLength: 40 });
  fc.assert(
    fc.property(row, (steps) => {
      let arbiter = IDLE;
      let at = 0;
      const counted = new Set<number>();
      for (const [one, ms] of steps) {
        at += ms;
        const began = at - 1000;
        const given: ArbiterEvent =
          one.kind === "word"
            ? { kind: "word", heard: { word: one.word as "yes", chance: 0.9, at } }
            : one.kind === "phrase"
              ? { ...one, standsAlone: false, began, at }
              : { kind: one.kind as "time", at };
        const { counts, takes, arbiter: next } = arbitrate(arbiter, given);
        expect(takes && counts.length > 0).toBe(false);
        for (const heard of counts) {
          expect(counted.has(heard.at)).toBe(false);
          counted.add(heard.at);
        }
        if (takes) for (const when of counted) expect(when).toBeLessThanOrEqual(began);
        arbiter = next;
      }
    }),
    { numRuns: 500, seed: 9 },
  );
});
