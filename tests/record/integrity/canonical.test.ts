import { describe, expect, test } from "vitest";
import { canonicalText } from "../../../src/record/integrity/canonical.ts";

describe("RFC 8785, its examples (looked up in copies of the RFC and in tests of others, 2026-11-26)", () => {
  test("section 3.2.2: numbers, escapes, literals", () => {
    const value = {
      numbers: [Number("333333333.33333329"), 1e30, 4.5, 2e-3, 0.000000000000000000000000001],
      string: "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"/",
      literals: [null, true, false],
    };
    expect(canonicalText(value)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  test("section 3.2.3: names in the order of their UTF-16 units", () => {
    const names = ["\u20ac", "\r", "\ufb33", "1", "\u{1f600}", "\u0080", "\u00f6"];
    const text = canonicalText(Object.fromEntries(names.map((name) => [name, 0])));
    expect(Object.keys(JSON.parse(text)).map((name) => name.codePointAt(0))).toEqual(
      // An object of the platform has names that are whole numbers first.
      [0x31, 0x0d, 0x80, 0xf6, 0x20ac, 0x1f600, 0xfb33],
    );
    expect(text.indexOf("\\r")).toBeLessThan(text.indexOf('"1"'));
  });

  // Appendix B: IEEE 754 bits, and their text.
  test.each([
    ["0000000000000000", "0"],
    ["8000000000000000", "0"],
    ["0000000000000001", "5e-324"],
    ["8000000000000001", "-5e-324"],
    ["7fefffffffffffff", "1.7976931348623157e+308"],
    ["4340000000000000", "9007199254740992"],
    ["4430000000000000", "295147905179352830000"],
    ["44b52d02c7e14af5", "9.999999999999997e+22"],
    ["44b52d02c7e14af6", "1e+23"],
    ["44b52d02c7e14af7", "1.0000000000000001e+23"],
    ["444b1ae4d6e2ef4f", "999999999999999900000"],
    ["444b1ae4d6e2ef50", "1e+21"],
    ["3eb0c6f7a0b5ed8c", "9.999999999999997e-7"],
    ["3eb0c6f7a0b5ed8d", "0.000001"],
    ["41b3de4355555553", "333333333.3333332"],
    ["41b3de4355555556", "333333333.3333334"],
    ["becbf647612f3696", "-0.0000033333333333333333"],
    ["43143ff3c1cb0959", "1424953923781206.2"],
  ])("the number %s is %s", (bits, text) => {
    expect(canonicalText(Buffer.from(bits, "hex").readDoubleBE())).toBe(text);
  });
});

test.each<readonly [string, unknown, string]>([
  [
    "fields in any order",
    { b: 1, a: { d: [2, { f: 3, e: 4 }], c: "x" } },
    '{"a":{"c":"x","d":[2,{"e":4,"f":3}]},"b":1}',
  ],
  ["what is left out is not there", { a: undefined, b: null }, '{"b":null}'],
  ["a field called toJSON is one like any other", { toJSON: "x" }, '{"toJSON":"x"}'],
  ["a lone surrogate counts as U+FFFD", "a\ud800b", '"a\ufffdb"'],
  ["letters stay as they were typed, composed or not", "e\u0301é", '"e\u0301é"'],
])("%s", (_, value, text) => expect(canonicalText(value)).toBe(text));

test.each([[Number.NaN], [Number.POSITIVE_INFINITY], [undefined]])("%s is no JSON", (value) =>
  expect(() => canonicalText(value)).toThrow(),
);
