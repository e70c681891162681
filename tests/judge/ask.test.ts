import { describe, expect, it } from "vitest";
import { turn } from "../../src/judge/ask.ts";

/** The sentence for a quarter turn of the high fire screw. */
const said = (min: number, max: number, waitSeconds = 60) =>
  turn({ action: "turn", adjuster: "high", turns: 0.25, expect: { min, max }, waitSeconds }).next;

describe("a turn is said with the middle of what to expect, to a tenth", () => {
  const cases: [number, number, string][] = [
    [9, 9.2, "nine point one"],
    [9, 9.3, "nine point two"],
    [8.6, 8.9, "eight point eight"],
    [9, 9, "nine"],
  ];
  it.each(cases)("%f to %f", (min, max, words) =>
    expect(said(min, max)).toBe(
      `Turn the high fire screw a quarter turn clockwise, expect ${words}, wait sixty seconds.`,
    ),
  );
  it("without a settle time there is no wait", () => {
    expect(said(9, 9.2, 0)).toBe("Turn the high fire screw a quarter turn clockwise, expect nine point one.");
  });
});
