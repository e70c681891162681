import { CLIP_RATE, type Clip } from "./clip.ts";

const HEADER_BYTES = 44;
const SAMPLE_BYTES = 2;

/**
 * Mono samples at 16 kHz, full scale 1, as a WAV of 16-bit PCM: what is kept where the browser has no encoder. Samples
 * beyond full scale are clipped. Layout: Microsoft/IBM "Multimedia Programming Interface and Data Specifications 1.0"
 * (RIFF, WAVE), from memory; the tests read it back with wavefile.
 */
export function wavClip(sound: Float32Array): Clip {
  const bytes = sound.length * SAMPLE_BYTES;
  const view = new DataView(new ArrayBuffer(HEADER_BYTES + bytes));
  const name = (at: number, text: string): void => {
    for (const [index, letter] of [...text].entries()) view.setUint8(at + index, letter.charCodeAt(0));
  };
  name(0, "RIFF");
  view.setUint32(4, HEADER_BYTES - 8 + bytes, true);
  name(8, "WAVE");
  name(12, "fmt ");
  view.setUint32(16, 16, true);
  // PCM, one channel.
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, CLIP_RATE, true);
  view.setUint32(28, CLIP_RATE * SAMPLE_BYTES, true);
  view.setUint16(32, SAMPLE_BYTES, true);
  view.setUint16(34, SAMPLE_BYTES * 8, true);
  name(36, "data");
  view.setUint32(40, bytes, true);
  for (const [index, sample] of sound.entries()) {
    const value = Math.round(Math.max(-1, Math.min(1, sample)) * 32_767);
    view.setInt16(HEADER_BYTES + index * SAMPLE_BYTES, value, true);
  }
  return { type: "audio/wav", data: view.buffer };
}
