import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  createDetector,
  type DetectOptions,
  type KeyWordHeard,
  type Scored,
} from "../../../src/device/spotter/detect.ts";
import { CLASSES, type Class, KEY_WORDS } from "../../../src/device/spotter/words.ts";

const OPTIONS: DetectOptions = { threshold: 0.7, windows: 3, refractoryMs: 1000 };
const STEP_MS = 209;

/** A window with one class at a chance, and the rest spread over the others. */
function window(label: Class, chance: number, at: number): Scored {
  const rest = (1 - chance) / (CLASSES.length - 1);
  return { scores: CLASSES.map((one) => (one === label ? chance : rest)), at };
}

/** Windows, five a second: "nine nine - -" is two of "nine" and two of background; "?" is unknown, "nine:0.5" less sure. */
function windows(text: string): Scored[] {
  return text.split(" ").map((item, place) => {
    const [name = "", chance = "0.95"] = item.split(":");
    const label = name === "-" ? "_background_noise_" : name === "?" ? "_unknown_" : (name as Class);
    return window(label, Number(chance), place * STEP_MS);
  });
}

function heardIn(scored: readonly Scored[], options = OPTIONS): KeyWordHeard[] {
  const detector = createDetector(options);
  return scored.flatMap((one) => detector.take(one) ?? []);
}
const words = (text: string, options?: DetectOptions) =>
  heardIn(windows(text), options)
    .map(({ word }) => word)
    .join(" ");

describe("words are told once each", () => {
  test.each([
    ["- - nine nine nine - - -", "nine"],
    ["- - nine nine nine nine nine nine nine nine nine", "nine"],
    ["- nine nine nine point point point two two two -", "nine point two"],
    ["- nine nine nine - - - nine nine nine -", "nine nine"],
    // It wavers, and does not fade.
    ["- nine nine nine - nine nine nine nine -", "nine"],
    ["- nine nine nine yes yes yes nine nine nine", "nine yes nine"],
  ])("%s: %s", (text, told) => expect(words(text)).toBe(told));
});

test("the same word is not told again within the refractory time, and is after it", () => {
  const text = "- nine nine nine - - - nine nine nine nine nine";
  expect(words(text, { ...OPTIONS, refractoryMs: 5000 })).toBe("nine");
  expect(words(text, { ...OPTIONS, refractoryMs: 1500 })).toBe("nine nine");
});

describe("no word", () => {
  test.each([
    ["a passing resemblance", "- - nine - - -"],
    ["two that alternate", "- nine five nine five nine five -"],
    ["unsure", "nine:0.6 nine:0.6 nine:0.6 nine:0.6 nine:0.6"],
    ["background", "- - - - - -"],
    ["unknown", "? ? ? ? ?"],
    ["too few windows", "nine nine"],
  ])("%s", (_, text) => expect(words(text)).toBe(""));
});

test("windows on either side of a gap are not averaged together", () => {
  const [a, b] = [window("nine", 0.95, 0), window("nine", 0.95, STEP_MS)];
  expect(heardIn([a, b, window("nine", 0.95, 5000)])).toEqual([]);
});

test("after a reset nothing is left of what was heard", () => {
  const detector = createDetector(OPTIONS);
  for (const one of windows("nine nine")) expect(detector.take(one)).toBeNull();
  detector.reset();
  expect(detector.take(window("nine", 0.95, 3 * STEP_MS))).toBeNull();
});

const stretches = fc.array(
  fc.record({
    label: fc.constantFrom(...CLASSES),
    chance: fc.double({ min: 0.05, max: 1, noNaN: true }),
    length: fc.integer({ min: 1, max: 12 }),
  }),
  { maxLength: 20 },
);
const options = fc.record({
  threshold: fc.double({ min: 0.5, max: 0.99, noNaN: true }),
  windows: fc.integer({ min: 1, max: 5 }),
  refractoryMs: fc.integer({ min: 0, max: 2000 }),
});

test("whatever is heard: only key words, each as sure as asked, never twice on end within the refractory time", () =>
  fc.assert(
    fc.property(stretches, options, (parts, how) => {
      const scored = parts
        .flatMap(({ label, chance, length }) => Array.from({ length }, () => ({ label, chance })))
        .map(({ label, chance }, place) => window(label, chance, place * STEP_MS));
      const heard = heardIn(scored, how);
      for (const [place, { word, chance, at }] of heard.entries()) {
        expect(KEY_WORDS).toContain(word);
        expect(chance).toBeGreaterThanOrEqual(how.threshold);
        expect(scored.some((one) => one.at === at)).toBe(true);
        const before = heard[place - 1];
        if (before?.word === word) expect(at - before.at).toBeGreaterThanOrEqual(how.refractoryMs);
      }
      // A word needs as many windows as are averaged.
      expect(heard.length).toBeLessThanOrEqual(Math.max(0, scored.length - how.windows + 1));
    }),
  ));

test("one clear word in quiet is told exactly once, however long it is heard", () =>
  fc.assert(
    fc.property(fc.constantFrom(...KEY_WORDS), fc.integer({ min: 3, max: 40 }), (word, length) => {
      const text = ["- - -", ...Array.from({ length }, () => word), "- - - -"].join(" ");
      expect(words(text)).toBe(word);
    }),
  ));
