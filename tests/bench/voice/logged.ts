import { type Random, seeded } from "../hearing/noise.ts";

const UNITS = "one two three four five six seven eight nine".split(" ");
const DIGITS = ["zero", ...UNITS];
const TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(" ");
const TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");
const FIRINGS = ["high", "low"];
const TURNS = ["half a turn", "a quarter turn", "an eighth turn"];
const WAYS = ["clockwise", "counterclockwise"];

/** What a technician logs on his visits, drawn by chance; each once, and none of `others`. */
export function loggedPhrases(count: number, seed: number, others: readonly string[]): string[] {
  const random = seeded(seed);
  const out = new Set<string>();
  while (out.size < count) {
    const phrase = drawn(random);
    if (!others.includes(phrase)) out.add(phrase);
  }
  return [...out];
}

function drawn(random: Random): string {
  const among = (list: readonly string[]): string => list[Math.floor(random() * list.length)] ?? "";
  const below100 = () =>
    random() < 0.3 ? among(TEENS) : `${among(TENS)}${random() < 0.6 ? ` ${among(UNITS)}` : ""}`;
  const ppm = () => (random() < 0.75 ? below100() : `one hundred ${below100()}`);
  const co2 = () => `${among(["seven", "eight", "nine", "ten"])} point ${among(DIGITS)}`;
  const decimal = () => `${among(UNITS.slice(1))} point ${among(DIGITS)}`;
  const both = () => `co2 ${co2()} co ${ppm()}`;
  const forms = [
    () => `${among(FIRINGS)} fire ${both()}`,
    () => `${among(FIRINGS)} fire ${both()}`,
    both,
    () => `co2 ${co2()}${random() < 0.3 ? " percent" : ""}`,
    () =>
      `o2 ${among(["three", "four", "five"])} point ${among(DIGITS)}${random() < 0.4 ? ` co ${ppm()}` : ""}`,
    () => `co ${ppm()}${random() < 0.3 ? " ppm" : ""}`,
    () => `${among(["flue", "stack", "ambient", "supply", "return"])} temperature ${ppm()}`,
    () => `${among(["inlet gas", "dynamic gas", "static", "manifold"])} pressure ${decimal()}`,
    () => `flame current ${decimal()} microamps`,
    () => `${among(TURNS)} ${among(WAYS)}`,
    () => `turned the ${among(FIRINGS)} fire screw ${among(TURNS)} ${among(WAYS)}`,
    () => `draft minus zero point zero ${among(UNITS)}`,
    () => `make that ${random() < 0.5 ? co2() : below100()}`,
    () => `fan speed ${among(UNITS)} thousand ${among(UNITS)} hundred`,
  ];
  return forms[Math.floor(random() * forms.length)]?.() ?? "";
}
