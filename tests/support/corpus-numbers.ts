import type { Item } from "../../src/meaning/item.ts";

/** What a phrase of tests/corpus says about numbers: those of its expected items, and whether something is asked. */
export interface ExpectedNumbers {
  readonly numbers: readonly number[];
  readonly asks: boolean;
}

const NUMBER = /^-?\d+(?:\.\d+)?$/;

/**
 * The numbers of a meaning in the short notation: of readings (and their dial), replacements and turns, a turn without
 * its sign, which says a direction and no number. Candidates of what is asked and the words of a note are none.
 */
export function expectedNumbers(expected: string): ExpectedNumbers {
  const numbers: number[] = [];
  for (const item of expected.split("; ")) {
    // A note runs to the end of its phrase, semicolons and all.
    if (item.startsWith("note:")) break;
    if (item.startsWith("?")) continue;
    const words = item.split(" ");
    const dial = words.indexOf("dial");
    const own = words.find((word) => NUMBER.test(word));
    const value = Number(own);
    if (own !== undefined) numbers.push(words[0] === "turn" ? Math.abs(value) : value);
    if (dial >= 0) numbers.push(Number(words[dial + 1]));
  }
  return { numbers, asks: /(?:^|; )\?(?:\(|\.|$|;)/.test(expected) };
}

/** The numbers of our own items, by the same rule. */
export function itemNumbers(items: readonly Item[]): number[] {
  return items.flatMap((item) => {
    switch (item.kind) {
      case "reading":
        return item.dial ? [item.value, item.dial.value] : [item.value];
      case "replace":
        return [item.value];
      case "adjustment":
        return [Math.abs(item.turns)];
      default:
        return [];
    }
  });
}

/** Pairs each expected number with one found, in any order: how many are right, and how many were not expected. */
export function matchNumbers(
  expected: readonly number[],
  found: readonly number[],
): { right: number; extra: number } {
  const left = [...found];
  let right = 0;
  for (const number of expected) {
    const at = left.findIndex((other) => Math.abs(other - number) <= toleranceOf(number));
    if (at < 0) continue;
    left.splice(at, 1);
    right += 1;
  }
  return { right, extra: left.length };
}

/** 1e-9, or half of the last place where the corpus writes a fraction that does not end (0.0833333). */
function toleranceOf(number: number): number {
  const places = String(number).split(".")[1]?.length ?? 0;
  return places >= 6 ? 10 ** -places / 2 : 1e-9;
}
