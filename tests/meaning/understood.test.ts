import { describe, expect, test } from "vitest";
import { type Context, NO_CONTEXT } from "../../src/meaning/context.ts";
import { parser } from "../support/talk.ts";

/** A phrase with brackets round what was understood. */
function bracketed(text: string, context: Context = NO_CONTEXT): string {
  return parser
    .understood(text, context)
    .reverse()
    .reduce(
      (shown, { from, to }) => `${shown.slice(0, from)}[${shown.slice(from, to)}]${shown.slice(to)}`,
      text,
    );
}

describe("what was understood of a phrase", () => {
  test.each([
    "[high fire] [CO2 nine point two], [CO forty]",
    "okay so [high fire now] reads [CO2 nine point two] and yeah [CO forty]",
    "[hf] [co2=9.2] [co=40]",
    "[scratch that]",
    "[high fire screw a quarter turn clockwise]",
    "[note trap is dry, look again in spring.]",
    "[test port plugged]",
    // Mended in the same breath: it took both.
    "[CO2 nine point two], [no, nine point four]",
    // Asked about, so it was understood.
    "[CO2 ninety two]",
    // Talk, plans and quotations are passed over whole.
    "hand me the four millimetre key",
    "the manual says nine point five",
    "if CO2 is nine point five I will back it out",
    "that will do for today",
    "",
  ])("%s", (expected) => expect(bracketed(expected.replace(/[[\]]/g, ""))).toBe(expected));

  test("a number alone is understood only as the answer to a question", () => {
    const question = { asks: "value", quantity: "co2", firing: "high", condition: null } as const;
    expect(bracketed("nine point two", { ...NO_CONTEXT, question })).toBe("[nine point two]");
  });
});
