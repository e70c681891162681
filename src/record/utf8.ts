import type { Problem } from "./problem.ts";

export type Decoded =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: Problem[] };

const CHUNK = 8192;

/**
 * The text of a file's bytes: UTF-8 (RFC 3629), with or without a byte order mark. Other encodings are refused with
 * one sentence. Written out here because the pure folders have no TextDecoder; the tests compare it with one.
 */
export function decodeText(bytes: Uint8Array): Decoded {
  const other = otherEncoding(bytes);
  if (other !== null) return refused(`found ${other}`);
  let at = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  let text = "";
  let units: number[] = [];
  while (at < bytes.length) {
    const size = sequenceLength(bytes, at);
    if (size === 0) {
      const hex = (bytes[at] ?? 0).toString(16).toUpperCase().padStart(2, "0");
      return refused(`found the byte 0x${hex} at offset ${at}, which UTF-8 does not have there`);
    }
    const code = codePoint(bytes, at, size);
    if (code > 0xffff) units.push(0xd7c0 + (code >> 10), 0xdc00 + (code & 0x3ff));
    else units.push(code);
    at += size;
    if (units.length >= CHUNK) {
      text += String.fromCharCode(...units);
      units = [];
    }
  }
  return { ok: true, text: text + String.fromCharCode(...units) };
}

function otherEncoding(bytes: Uint8Array): string | null {
  const [a, b, c, d] = bytes;
  if (a === 0xff && b === 0xfe) return c === 0 && d === 0 ? "UTF-32" : "UTF-16 (little-endian)";
  if (a === 0xfe && b === 0xff) return "UTF-16 (big-endian)";
  if (a === 0 && b === 0 && c === 0xfe && d === 0xff) return "UTF-32";
  if ((a === 0) !== (b === 0)) return "UTF-16 without a byte order mark";
  return null;
}

/** Bytes in the well-formed sequence at `at` (Unicode Standard, table 3-7), 0 where there is none. */
function sequenceLength(bytes: Uint8Array, at: number): number {
  const lead = bytes[at] ?? 0;
  if (lead < 0x80) return 1;
  const size =
    lead >= 0xc2 && lead <= 0xdf
      ? 2
      : lead >= 0xe0 && lead <= 0xef
        ? 3
        : lead >= 0xf0 && lead <= 0xf4
          ? 4
          : 0;
  const second = bytes[at + 1] ?? 0;
  const lowest = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
  const highest = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
  if (second < lowest || second > highest) return 0;
  for (let i = 2; i < size; i++) if (((bytes[at + i] ?? 0) & 0xc0) !== 0x80) return 0;
  return size;
}

function codePoint(bytes: Uint8Array, at: number, size: number): number {
  const lead = bytes[at] ?? 0;
  if (size === 1) return lead;
  let code = lead & (0xff >> (size + 1));
  for (let i = 1; i < size; i++) code = (code << 6) | ((bytes[at + i] ?? 0) & 0x3f);
  return code;
}

function refused(what: string): Decoded {
  return {
    ok: false,
    problems: [{ path: "", message: `Expected UTF-8 text, ${what}; save the file as UTF-8.` }],
  };
}
