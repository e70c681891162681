/** One kept clip as it lies in IndexedDB, and as the browser decodes it. */
export interface Decoded {
  readonly seq: number;
  readonly at: string;
  readonly type: string;
  readonly bytes: number;
  readonly seconds: number;
  /** Root mean square of each 20 ms of the decoded sound. */
  readonly envelope: readonly number[];
}

/** Runs in the page: the kept clips, read past the app and decoded by the browser. */
export async function decodeClips(): Promise<Decoded[]> {
  const rows = await new Promise<{ seq: number; at: string; type: string; data: ArrayBuffer }[]>(
    (resolve) => {
      const opening = indexedDB.open("burnerside");
      opening.onsuccess = () => {
        const reading = opening.result.transaction("clips").objectStore("clips").getAll();
        reading.onsuccess = () => {
          opening.result.close();
          resolve(reading.result);
        };
      };
    },
  );
  const context = new AudioContext({ sampleRate: 16_000 });
  const decoded = rows.map(async ({ seq, at, type, data }) => {
    const bytes = data.byteLength;
    const buffer = await context.decodeAudioData(data.slice(0));
    const samples = buffer.getChannelData(0);
    const envelope: number[] = [];
    for (let from = 0; from + 320 <= samples.length; from += 320) {
      const power = samples.subarray(from, from + 320).reduce((sum, sample) => sum + sample * sample, 0);
      envelope.push(Math.sqrt(power / 320));
    }
    return { seq, at, type, bytes, seconds: buffer.duration, envelope };
  });
  return Promise.all(decoded);
}

/** Root mean square of each 20 ms of sound at 16 kHz. */
export const envelopeOf = (samples: Float32Array): number[] =>
  Array.from({ length: Math.floor(samples.length / 320) }, (_, index) =>
    Math.sqrt(
      samples.subarray(index * 320, index * 320 + 320).reduce((sum, sample) => sum + sample * sample, 0) /
        320,
    ),
  );

/** The best normalised correlation of one envelope with a longer one, over all places of it. */
export function likeness(part: readonly number[], whole: readonly number[]): number {
  const at = (lag: number) => {
    const other = part.map((_, index) => whole[lag + index] ?? 0);
    const dot = part.reduce((sum, value, index) => sum + value * (other[index] ?? 0), 0);
    return dot / Math.max(1e-9, Math.hypot(...part) * Math.hypot(...other));
  };
  return Math.max(...Array.from({ length: whole.length }, (_, lag) => at(lag)));
}
