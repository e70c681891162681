import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readJson } from "../../src/record/json.ts";
import { readPlainJson } from "../../src/record/plain-json.ts";

/** A value as text, and whether a name in it is given twice or is `__proto__`. */
interface Written {
  readonly text: string;
  readonly odd: boolean;
}

/** Names with everything that could mislead a count of colons, and few enough that they meet. */
const name = fc.constantFrom("a", "b", ":", '"', "\\", '\\"', '":"', "\\\\", "é", "__proto__", "");

/** As `JSON.stringify` writes it, or with an escape for every character. */
const written = (text: string, escaped: boolean) =>
  escaped
    ? `"${[...text].map((c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`).join("")}"`
    : JSON.stringify(text);

const { value } = fc.letrec<{ value: Written }>((tie) => ({
  value: fc.oneof(
    { depthSize: "small" },
    fc.constantFrom("1", "-0.5e3", "true", "null").map((text) => ({ text, odd: false })),
    fc.tuple(name, fc.boolean()).map(([text, escaped]) => ({ text: written(text, escaped), odd: false })),
    fc.array(tie("value"), { maxLength: 3 }).map((all) => ({
      text: `[${all.map(({ text }) => text).join(" , ")}]`,
      odd: all.some(({ odd }) => odd),
    })),
    fc.array(fc.tuple(name, fc.boolean(), tie("value")), { maxLength: 4 }).map((all) => ({
      text: `{${all.map(([of, escaped, { text }]) => `${written(of, escaped)} : ${text}`).join(",")}}`,
      odd:
        new Set(all.map(([of]) => of)).size < all.length ||
        all.some(([of, , { odd }]) => odd || of === "__proto__"),
    })),
  ),
}));

describe("plain JSON", () => {
  test("is taken where no name is given twice and none is __proto__, whatever names and texts hold", () => {
    fc.assert(
      fc.property(value, ({ text, odd }) => {
        expect(readPlainJson(text)).toEqual(odd ? null : { value: JSON.parse(text) });
        expect(readJson(text).ok).toBe(!odd);
      }),
      { numRuns: 3000 },
    );
  });

  const nested = (levels: number) => "[".repeat(levels) + "]".repeat(levels);
  test.each([
    ["64 levels", nested(64), true],
    ["65 levels", nested(65), false],
    ["100 000 levels", nested(100_000), false],
    ["a name twice, once with an escape", '{"a":1,"\\u0061":2}', false],
    ["one name in two objects", '[{"a":1},{"a":2}]', true],
    ["__proto__ with an escape", '{"\\u005f_proto__":1}', false],
    ["colons in a text", '{"a":"b:c:d"}', true],
    ["no JSON", '{"a":1', false],
  ])("%s", (_name, text, taken) => {
    expect(readPlainJson(text) !== null).toBe(taken);
  });
});
