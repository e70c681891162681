import { cut, piecesOf, streamOf } from "./streams.ts";

/** Texts as UTF-8, packed with gzip (RFC 1952) by the platform. Throws TooMuch where they have more than `most` bytes. */
export function packed(texts: AsyncIterable<string>, most: number): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  return piecesOf(streamOf(encoded(texts, most)).pipeThrough(new CompressionStream("gzip")));
}

async function* encoded(texts: AsyncIterable<string>, most: number): AsyncGenerator<Uint8Array> {
  const encoder = new TextEncoder();
  let total = 0;
  for await (const text of texts) {
    const bytes = encoder.encode(text);
    total += bytes.length;
    if (total > most) throw new TooMuch(`expected at most ${most / MIB} MiB, found more`);
    yield bytes;
  }
}

/** Bytes that are unpacked at once: what is lost beside the damaged place itself. */
const SIP = 2048;

/**
 * Unpacks gzip. Where it is cut or damaged, what was before is given first, up to some lines, and then it throws. How much it
 * may give is for the reader to bound.
 */
export function unpacked(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  return piecesOf(streamOf(sips(pieces)).pipeThrough(new DecompressionStream("gzip")));
}

/** A stream that fails throws away what it gave and nobody has read yet. Small pieces, and nothing at the end, leave little of that. */
async function* sips(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  for await (const { bytes } of cut(pieces, SIP)) yield bytes;
  yield new Uint8Array(0);
}

/** What there is too much of. */
export class TooMuch extends Error {
  override readonly name = "TooMuch";
}

const NEWLINE = 10;
const MIB = 1024 * 1024;

/** The lines of bytes that may be hostile, without their newlines. Throws TooMuch where one, or all together, has more bytes than it may. */
export async function* boundedLines(
  pieces: AsyncIterable<Uint8Array>,
  most: { readonly line: number; readonly total: number },
): AsyncGenerator<Uint8Array> {
  let begun: Uint8Array[] = [];
  let length = 0;
  let total = 0;
  const take = (bytes: Uint8Array): void => {
    length += bytes.length;
    if (length > most.line) throw new TooMuch(`expected lines of at most ${most.line / MIB} MiB, found more`);
    if (bytes.length > 0) begun.push(bytes);
  };
  const line = (): Uint8Array => {
    const whole = new Uint8Array(length);
    let at = 0;
    for (const bytes of begun) {
      whole.set(bytes, at);
      at += bytes.length;
    }
    begun = [];
    length = 0;
    return whole;
  };
  for await (const piece of pieces) {
    total += piece.length;
    if (total > most.total) throw new TooMuch(`expected at most ${most.total / MIB} MiB, found more`);
    let from = 0;
    for (let at = piece.indexOf(NEWLINE); at >= 0; at = piece.indexOf(NEWLINE, from)) {
      take(piece.subarray(from, at));
      yield line();
      from = at + 1;
    }
    take(piece.subarray(from));
  }
  if (length > 0) yield line();
}
