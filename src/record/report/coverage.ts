/** Whether a font has a glyph for a code point. */
export type Covers = (codePoint: number) => boolean;

/**
 * The code points that a TrueType font has glyphs for, by its `cmap` table (ISO/IEC 14496-22, 5.2.1; formats 4 and 12).
 * Throws RangeError where the font has no such table: a fault of the build.
 */
export function coverageOf(font: Uint8Array): Covers {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const cmap = tableAt(view, "cmap");
  const subtables = Array.from({ length: view.getUint16(cmap + 2) }, (_, i) => {
    const at = cmap + view.getUint32(cmap + 4 + 8 * i + 4);
    return { at, format: view.getUint16(at) };
  });
  const wide = subtables.find(({ format }) => format === 12);
  if (wide) return among(groups(view, wide.at));
  const narrow = subtables.find(({ format }) => format === 4);
  if (narrow) return among(segments(view, narrow.at));
  throw new RangeError("expected a font with a character map of format 4 or 12");
}

function tableAt(view: DataView, wanted: string): number {
  for (let i = 0; i < view.getUint16(4); i += 1) {
    const record = 12 + 16 * i;
    const tag = [0, 1, 2, 3].map((k) => String.fromCharCode(view.getUint8(record + k))).join("");
    if (tag === wanted) return view.getUint32(record + 8);
  }
  throw new RangeError(`expected a font with the table ${wanted}`);
}

/** First and last code point of each stretch that has glyphs, in order. */
type Stretches = readonly (readonly [from: number, to: number])[];

function groups(view: DataView, at: number): Stretches {
  return Array.from({ length: view.getUint32(at + 12) }, (_, i) => {
    const group = at + 16 + 12 * i;
    return [view.getUint32(group), view.getUint32(group + 4)] as const;
  });
}

function segments(view: DataView, at: number): Stretches {
  const count = view.getUint16(at + 6) / 2;
  return Array.from({ length: count }, (_, i) => {
    const to = view.getUint16(at + 14 + 2 * i);
    const from = view.getUint16(at + 16 + 2 * count + 2 * i);
    return [from, to] as const;
  });
}

function among(stretches: Stretches): Covers {
  return (codePoint) => {
    let [low, high] = [0, stretches.length - 1];
    while (low <= high) {
      const middle = (low + high) >> 1;
      const [from, to] = stretches[middle] ?? [1, 0];
      if (codePoint < from) high = middle - 1;
      else if (codePoint > to) low = middle + 1;
      else return true;
    }
    return false;
  };
}
