import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readJson } from "../../src/record/json.ts";

const problems = (text: string) => {
  const read = readJson(text);
  return read.ok ? [] : read.problems;
};

// Outside reference: the engine's own JSON.parse (ECMA-262, RFC 8259). Ours is stricter in three things only:
// a field given twice, `__proto__`, and more than 64 levels.
describe("agrees with JSON.parse", () => {
  const reference = (text: string) => {
    try {
      return { ok: true, value: JSON.parse(text) };
    } catch {
      return { ok: false, problems: expect.any(Array) };
    }
  };
  const stricter = /given|once|__proto__|levels/;

  test("on any JSON", () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), fc.constantFrom(0, 2), (text, indent) => {
        const spaced = JSON.stringify(JSON.parse(text), null, indent);
        if (!spaced.includes("__proto__")) expect(readJson(spaced)).toEqual(reference(spaced));
      }),
    );
  });

  test("on JSON with one character put in, taken out or changed", () => {
    const character = fc.constantFrom(...'{}[]",:\\/0123456789-+.eEtrufalsn \n\t\u0000\u00a0x');
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 3 }),
        fc.nat(),
        fc.nat(1),
        fc.option(character),
        (text, at, cut, put) => {
          const place = at % (text.length + 1);
          const broken = text.slice(0, place) + (put ?? "") + text.slice(place + cut);
          const read = readJson(broken);
          if (!read.ok && read.problems.some(({ message }) => stricter.test(message))) return;
          expect(read).toEqual(reference(broken));
        },
      ),
      { numRuns: 2000 },
    );
  });

  test.each([
    ...["", " ", "-", "01", "1.", ".5", "1e", "+1", "0x1", "1e999", "-0", "NaN", "Infinity", "tru", "truex"],
    ...[
      '"',
      '"\\',
      '"\\u12"',
      '"\\x"',
      '"\t"',
      '"\u007f"',
      '"\\ud800"',
      "'a'",
      "[1,]",
      "[,1]",
      "{,}",
      "[1 2]",
    ],
    ...['{"a"}', '{"a":}', '{"a":1,}', "{a:1}", "[1]]", "// x\n1", "1 // x", "\u00a01", "[]", "{}"],
  ])("on %j", (text) => {
    expect(readJson(text)).toEqual(reference(text));
  });
});

const ESCAPE = 'one of \\" \\\\ \\/ \\b \\f \\n \\r \\t or \\u with four hexadecimal digits';

test.each([
  ["", 1, 1, "expected a value, found the end of the file"],
  ['{"a": 1', 1, 8, "expected a comma or }, found the end of the file"],
  ['{\n  "a": 1\n  "b": 2\n}', 3, 3, 'expected a comma or }, found "\\"b\\""'],
  ['{\r\n"a": tru}', 2, 6, 'expected a value, found "tru"'],
  ["[1,\r2,\r]", 3, 1, 'expected a value, found "]"'],
  ["[1, 2", 1, 6, "expected a comma or ], found the end of the file"],
  ['{"a" 1}', 1, 6, 'expected a colon after the field name, found "1"'],
  ["{a: 1}", 1, 2, 'expected a field name in quotes ("…"), found "a"'],
  ['["a\nb"]', 1, 4, 'expected the closing " of a text, found the end of the line'],
  ['["a\\\\b\\q"]', 1, 7, `expected ${ESCAPE}, found "\\\\q"`],
  ['["\\u00"]', 1, 3, `expected ${ESCAPE}, found "\\\\u00"`],
  ['["\tb', 1, 3, 'expected control characters in a text written as escapes such as \\t, found "\\t"'],
  ['"ab', 1, 4, 'expected the closing " of a text, found the end of the file'],
  ["[1.]", 1, 4, 'expected a digit, found "]"'],
  ["[-]", 1, 2, 'expected a value, found "-"'],
  ["[1 // x\n]", 1, 4, 'expected a comma or ], found "// x"'],
  ['\uFEFF{"a": [1}}', 1, 9, 'expected a comma or ], found "}"'],
  ["1 2", 1, 3, 'expected the end of the file, found "2"'],
  ["\u202e", 1, 1, 'expected a value, found "\\u{202e}"'],
])("%j is told by line and column", (text, line, column, sentence) => {
  expect(problems(text)).toEqual([
    { path: expect.any(String), message: `Line ${line}, column ${column}: ${sentence}.` },
  ]);
});

test.each([
  ['{"a": [1, {"b": tru}]}', "a[1].b"],
  ['[{"a": {"b": 1}, "c": "', "[0].c"],
  ['{"a": [1, 2], b: 3}', ""],
])("%j is told by its place in the value, too", (text, path) => {
  expect(problems(text)).toEqual([{ path, message: expect.any(String) }]);
});

test("a field given twice is told, each time", () => {
  expect(problems('{"a": {"b": 1,\n "b": 2, "c": 3, "b": 4}}')).toEqual([
    { path: "a.b", message: 'Line 2, column 2: expected each field once, found "b" again.' },
    { path: "a.b", message: 'Line 2, column 18: expected each field once, found "b" again.' },
  ]);
});

test("one name in two objects is no repetition", () => {
  expect(readJson('[{"a": 1}, {"a": 1}]')).toEqual({ ok: true, value: [{ a: 1 }, { a: 1 }] });
});

test("__proto__ is refused and pollutes nothing; constructor is a name like others", () => {
  expect(problems('{"__proto__": {"bad": true}}')).toEqual([
    { path: "__proto__", message: 'Line 1, column 2: expected a field of this format, found "__proto__".' },
  ]);
  expect(problems('{"\\u005f_proto__": 1}')).toHaveLength(1);
  expect(readJson('{"constructor": 1, "toString": 2}')).toEqual({
    ok: true,
    value: { constructor: 1, toString: 2 },
  });
  expect("bad" in {}).toBe(false);
});

test.each([
  [64, 0],
  [65, 1],
  [1_000_000, 1],
])("%i levels: %i problems", (levels, count) => {
  expect(problems("[".repeat(levels) + "]".repeat(levels))).toHaveLength(count);
  const objects = problems(`${'{"a":'.repeat(levels)}1${"}".repeat(levels)}`);
  expect(objects).toHaveLength(count);
  for (const { message } of objects)
    expect(message).toMatch(/: expected at most 64 levels of nesting, found more\.$/);
});

test("a hundred thousand repetitions on one line are told, up to a thousand", () => {
  const told = problems(`{"a":0${',"a":0'.repeat(100_000)}}`);
  expect(told).toHaveLength(1001);
  expect(told.at(-1)?.message).toBe("Expected at most 1000 problems, found 99000 more.");
});
