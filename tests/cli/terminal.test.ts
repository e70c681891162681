import fc from "fast-check";
import { expect, test } from "vitest";
import { jsonLine, terminalText } from "../../src/cli/terminal.ts";

// ECMA-48 (from memory): controls are U+0000 to U+001F, U+007F and U+0080 to U+009F; U+009B begins a sequence as ESC [ does.
const STEERS = /[\p{Cc}\u202E\u2066\u2028\u2029]/u;
const anyText = fc.string({
  unit: fc.oneof(
    fc.constantFrom("\u009B", "\u001B", "\u202E", "\u2028", "\u{E0041}", "a"),
    fc.string({ unit: "binary", maxLength: 2 }),
  ),
});

test("a JSON line is the same value to who reads it, and one line that steers nothing to who looks at it", () => {
  fc.assert(
    fc.property(fc.dictionary(anyText, anyText), (value) => {
      const line = jsonLine(value);
      expect(line).not.toMatch(STEERS);
      expect(JSON.parse(line)).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
});

test("lines for people stay lines, and nothing in them steers", () => {
  fc.assert(
    fc.property(fc.array(anyText), (lines) => {
      const shown = terminalText(lines.join("\n"));
      expect(shown.replaceAll("\n", "")).not.toMatch(STEERS);
    }),
  );
  expect(terminalText("usage:\n  check FILE…")).toBe("usage:\n  check FILE…");
  expect(terminalText("a\u001B[2Jb.json: bad")).toBe("a□[2Jb.json: bad");
});
