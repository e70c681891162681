import { base64Of, bytesOf } from "../../device/base64.ts";
import type { LearnedPhones } from "../../device/ears/offline/adaptation.ts";
import type { DenseWeights } from "../../device/spotter/profile.ts";
import type { VoiceProfile } from "../../device/spotter/voice-profile.ts";
import { sizeProblem } from "../../record/format.ts";
import type { Problem } from "../../record/problem.ts";
import { decodeText } from "../../record/utf8.ts";
import { readVoice, VOICE_LAYERS, VOICE_PHONES, type VoiceFile } from "../../record/voice-file.ts";
import { areWeights, LARGEST_WEIGHT } from "./stored.ts";

/** What a chosen file turned out to be: a profile without an id of its own, or all that is wrong with it. */
export type VoiceImported =
  | { readonly ok: true; readonly voice: Omit<VoiceProfile, "id" | "on"> }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** A file too large to be a voice, by its bytes; null where it is not. */
export function unreadablyLargeVoice(size: number): Problem | null {
  return sizeProblem(size, "voice");
}

/** Reads an own voice that may be broken or hostile. */
export function importVoice(bytes: Uint8Array): VoiceImported {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return decoded;
  const read = readVoice(decoded.text);
  if (!read.ok) return read;
  const { name, taughtAt, gain, spotter, phones } = read.voice;
  const problems: Problem[] = [];
  const layer = (place: string, written: WrittenLayer, size: Size): DenseWeights => {
    const floats = (part: keyof WrittenLayer, count: number) => {
      const values = floatsOf(written[part]);
      const message = `Expected ${count} finite numbers from -${LARGEST_WEIGHT} to ${LARGEST_WEIGHT}, found others.`;
      if (!areWeights(values, count)) problems.push({ path: `${place}.${part}`, message });
      return values;
    };
    return { kernel: floats("kernel", size.inputs * size.outputs), bias: floats("bias", size.outputs) };
  };
  const hidden = layer("spotter.hidden", spotter.hidden, VOICE_LAYERS.hidden);
  const head = layer("spotter.head", spotter.head, VOICE_LAYERS.head);
  const learned: { phones?: LearnedPhones } = phones
    ? { phones: { ...phones, head: layer("phones.head", phones.head, VOICE_PHONES), on: true } }
    : {};
  if (problems.length > 0) return { ok: false, problems };
  const taught = { base: spotter.base, hidden, head };
  return { ok: true, voice: { name, taughtAt, gain, spotter: taught, ...learned } };
}

interface WrittenLayer {
  readonly kernel: string;
  readonly bias: string;
}
interface Size {
  readonly inputs: number;
  readonly outputs: number;
}

/** A voice as a file: JSON, a newline at the end. */
export function exportVoice({ name, taughtAt, gain, spotter, phones }: VoiceProfile): string {
  const file: VoiceFile = {
    format: "burnerside-voice/1",
    name,
    taughtAt,
    gain,
    spotter: { base: spotter.base, hidden: written(spotter.hidden), head: written(spotter.head) },
  };
  if (phones) {
    const { on: _, head, ...learned } = phones;
    file.phones = { ...learned, head: written(head) };
  }
  return `${JSON.stringify(file, null, 2)}\n`;
}

function written({ kernel, bias }: DenseWeights): WrittenLayer {
  return { kernel: base64Floats(kernel), bias: base64Floats(bias) };
}

/** Little-endian, whatever the device is. */
function base64Floats(values: Float32Array): string {
  const view = new DataView(new ArrayBuffer(4 * values.length));
  for (const [at, value] of values.entries()) view.setFloat32(4 * at, value, true);
  return base64Of(new Uint8Array(view.buffer));
}

/** None where it is not whole floats. */
function floatsOf(base64: string): Float32Array {
  const { buffer } = bytesOf(base64);
  const view = new DataView(buffer);
  const length = buffer.byteLength % 4 === 0 ? buffer.byteLength / 4 : 0;
  return Float32Array.from({ length }, (_, at) => view.getFloat32(4 * at, true));
}
