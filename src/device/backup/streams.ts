// Streams of bytes and generators of bytes, each made into the other: Chromium has no ReadableStream.from, older Safari no
// asynchronous iteration of streams.

type Bytes = Uint8Array<ArrayBuffer>;

/** A stream that gives what a generator gives, when it is asked for it. */
export function streamOf(pieces: AsyncIterable<Uint8Array>): ReadableStream<Bytes> {
  const iterator = pieces[Symbol.asyncIterator]();
  return new ReadableStream<Bytes>({
    async pull(controller) {
      const { done, value } = await iterator.next();
      if (done) controller.close();
      else controller.enqueue(owned(value));
    },
    async cancel() {
      await iterator.return?.();
    },
  });
}

/** What a stream gives. What is left unread is let go. */
export async function* piecesOf(stream: ReadableStream<Uint8Array>): AsyncGenerator<Bytes> {
  const reader = stream.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield owned(value);
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

/** All of it as one file: the browser may keep that on the disk. */
export function blobOf(pieces: AsyncIterable<Uint8Array>): Promise<Blob> {
  return new Response(streamOf(pieces)).blob();
}

/** In pieces of just so many bytes; the last one may be shorter, and is empty where there is nothing at all. */
export async function* cut(
  pieces: AsyncIterable<Uint8Array>,
  size: number,
): AsyncGenerator<{ readonly bytes: Bytes; readonly last: boolean }> {
  let held = new Uint8Array(size);
  let filled = 0;
  for await (const piece of pieces) {
    let from = 0;
    while (from < piece.length) {
      // Whether a full one is the last shows only when more comes.
      if (filled === size) {
        yield { bytes: held, last: false };
        held = new Uint8Array(size);
        filled = 0;
      }
      const some = piece.subarray(from, from + size - filled);
      held.set(some, filled);
      filled += some.length;
      from += some.length;
    }
  }
  yield { bytes: held.subarray(0, filled), last: true };
}

function owned(bytes: Uint8Array): Bytes {
  return bytes.buffer instanceof ArrayBuffer
    ? new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    : new Uint8Array(bytes);
}
