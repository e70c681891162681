import { describe, expect, it } from "vitest";
import type { Item } from "../../src/meaning/item.ts";
import { expectedNumbers, itemNumbers, matchNumbers } from "./corpus-numbers.ts";

describe("expectedNumbers", () => {
  it.each<[string, number[], boolean]>([
    ["co2 9.2 % high; co 40 [ppm] high", [9.2, 40], false],
    ["gas-pressure-manifold -0.02 [in_i'H2O]", [-0.02], false],
    ["gas-meter-time 45 s dial 2 [ft_i]3", [45, 2], false],
    ["turn high -0.25; turn ? 1.5", [0.25, 1.5], false],
    ["replace 9.4 -", [9.4], false],
    ["replace co 130 -", [130], false],
    ["note: gasket 4 mm; CO2 was 9.2", [], false],
    ["check low-fire-cap undone; command read-back; firing high; strike", [], false],
    ["-", [], false],
    ["?", [], true],
    ["?..", [], true],
    ["?(co2 9.2 %)", [], true],
    ["co2 9 %; ?(co 40 [ppm], co-ambient 40 [ppm])", [9], true],
    ["turn ? 0.5; ?", [0.5], true],
  ])("%s", (short, numbers, asks) => {
    expect(expectedNumbers(short)).toEqual({ numbers, asks });
  });
});

describe("itemNumbers", () => {
  const reading = { kind: "reading", firing: null, condition: null, said: "", confidence: 1 } as const;
  it.each<[string, Item, number[]]>([
    ["a reading", { ...reading, quantity: "co2", value: 9.2, unit: "%", dial: null }, [9.2]],
    [
      "a dial",
      {
        ...reading,
        quantity: "gas-meter-time",
        value: 45,
        unit: "s",
        dial: { value: 2, unit: "[ft_i]3" },
      },
      [45, 2],
    ],
    ["a turn out", { kind: "adjustment", adjuster: null, turns: -0.25 }, [0.25]],
    ["a replacement", { kind: "replace", value: 9.4, unit: null }, [9.4]],
    ["a note", { kind: "note", text: "4 mm" }, []],
  ])("%s", (_, item, numbers) => {
    expect(itemNumbers([item])).toEqual(numbers);
  });
});

describe("matchNumbers", () => {
  it.each<[string, number[], number[], number, number]>([
    ["in any order", [9.2, 40], [40, 9.2], 2, 0],
    ["each found number once", [9, 9], [9], 1, 0],
    ["what was not expected", [9.2], [2, 9.2, 9.2], 1, 2],
    ["at the tolerance", [9.2], [9.2 + 0.9e-9], 1, 0],
    ["above the tolerance", [9.2], [9.2 + 1.1e-9], 0, 1],
    ["a twelfth as the corpus writes it", [0.0833333], [1 / 12], 1, 0],
    ["a twelfth rounded to three places", [0.0833333], [0.083], 0, 1],
    ["a sign", [-2], [2], 0, 1],
    ["nothing found", [9.2], [], 0, 0],
  ])("%s", (_, expected, found, right, extra) => {
    expect(matchNumbers(expected, found)).toEqual({ right, extra });
  });
});
