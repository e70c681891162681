import fc from "fast-check";
import { expect, test } from "vitest";
import { decodeText } from "../../src/record/utf8.ts";

// Outside reference: Node's TextDecoder (WHATWG Encoding Standard), in its strict mode.
function reference(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

const textOf = (bytes: Uint8Array) => {
  const decoded = decodeText(bytes);
  return decoded.ok ? decoded.text : null;
};
const messageOf = (...bytes: number[]) => {
  const decoded = decodeText(Uint8Array.from(bytes));
  return decoded.ok ? null : decoded.problems.map(({ message }) => message).join();
};

test("any text comes back", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", minLength: 2, maxLength: 300 }), (text) => {
      const safe = `{}${text}`;
      expect(textOf(new TextEncoder().encode(safe))).toBe(safe);
    }),
  );
});

test("any bytes are taken or refused as TextDecoder does", () => {
  // Bytes around the edges of Unicode's table 3-7 of well-formed sequences, where decoders go wrong.
  const edge = fc.constantFrom(
    0x41,
    0x7f,
    0x80,
    0x8f,
    0x90,
    0x9f,
    0xa0,
    0xbf,
    0xc0,
    0xc1,
    0xc2,
    0xdf,
    0xe0,
    0xe1,
    0xed,
  );
  const lead = fc.constantFrom(0xee, 0xef, 0xf0, 0xf1, 0xf3, 0xf4, 0xf5, 0xff);
  fc.assert(
    fc.property(fc.array(fc.oneof(edge, lead, fc.nat(255)), { maxLength: 8 }), (rest) => {
      const bytes = Uint8Array.from([0x7b, 0x7d, ...rest]);
      expect(textOf(bytes)).toBe(reference(bytes));
    }),
    { numRuns: 20_000 },
  );
});

test("long text is put together from its pieces", () => {
  const text = "é€😀a".repeat(50_000);
  expect(textOf(new TextEncoder().encode(text))).toBe(text);
});

test("a byte order mark is taken off, and no bytes are no text", () => {
  expect(textOf(Uint8Array.of(0xef, 0xbb, 0xbf, 0x7b))).toBe("{");
  expect(textOf(Uint8Array.of())).toBe("");
});

test.each([
  [[0xff, 0xfe, 0x7b, 0], "UTF-16 (little-endian)"],
  [[0xfe, 0xff, 0, 0x7b], "UTF-16 (big-endian)"],
  [[0x7b, 0, 0x7d, 0], "UTF-16 without a byte order mark"],
  [[0, 0x7b, 0, 0x7d], "UTF-16 without a byte order mark"],
  [[0xff, 0xfe, 0, 0], "UTF-32"],
  [[0, 0, 0xfe, 0xff], "UTF-32"],
  [[0x7b, 0x7d, 0xe9], "the byte 0xE9 at offset 2, which UTF-8 does not have there"],
  [[0x1f, 0x8b, 8, 0], "the byte 0x8B at offset 1, which UTF-8 does not have there"],
])("%j is refused as %s", (bytes, what) => {
  expect(messageOf(...bytes)).toBe(`Expected UTF-8 text, found ${what}; save the file as UTF-8.`);
});
