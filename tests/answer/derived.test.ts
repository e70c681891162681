import { describe, expect, it } from "vitest";
import { answer } from "../support/talk.ts";

const meter = "clocked two cubic feet in forty five seconds";
const water = ["supply sixty five Celsius return forty five Celsius"];
const si = { units: "si" } as const;

describe("what readings come to is said with them, as about", () => {
  // Gas input: 2 ft3 in 45 s is 160 ft3/h, of natural gas at about 1036 Btu/ft3 (gross, tests/combustion).
  // Heat to the water: 20 L/min x 4.18 kJ/(L K) x 20 K = 28 kW (common practice, no source).
  const cases: [string, string[], RegExp | null, object?][] = [
    ["gas input, US", [meter], /\. Gas input about one hundred sixty six thousand B T U per hour gross\./],
    ["gas input, SI", [meter], /\. Gas input about forty nine kilowatts gross\./, si],
    [
      "at altitude there is less gas in a foot",
      ["altitude two thousand metres", meter],
      /about thirty eight kilowatts/,
      si,
    ],
    ["not without a dial", ["meter time forty five seconds"], null, si],
    [
      "heat to the water",
      [...water, "water flow twenty litres a minute"],
      /\. Heat to the water about twenty eight kilowatts\./,
      si,
    ],
    ["flow first", ["water flow twenty litres a minute", ...water], /about twenty eight kilowatts\./, si],
    ["US", [...water, "water flow twenty litres a minute"], /about ninety four thousand B T U per hour\./],
    ["not without a flow", [...water], null, si],
    [
      "not of two firings",
      ["high fire", ...water, "low fire", "water flow twenty litres a minute"],
      null,
      si,
    ],
    [
      "not where the return is hotter",
      ["supply forty Celsius return sixty Celsius", "water flow twenty litres a minute"],
      null,
      si,
    ],
    ["only with what it comes from", [meter, "high fire"], null, si],
  ];
  const anything = /Gas input|Heat to the water/;
  it.each(cases)("%s", (_name, phrases, expected, changes = {}) => {
    for (const level of ["normal", "full"] as const) {
      const text = answer(phrases, changes, level);
      if (expected) expect(text).toMatch(expected);
      else expect(text).not.toMatch(anything);
    }
    expect(answer(phrases, changes, "short")).not.toMatch(anything);
  });
});
