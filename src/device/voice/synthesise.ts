import { runWasi } from "./wasi.ts";

/** Mono sound, full scale 1. */
export interface Sound {
  readonly samples: Float32Array<ArrayBuffer>;
  /** Hz. */
  readonly rate: number;
}

export type Synthesise = (text: string) => Promise<Sound>;

/** The loudest sample of what is said: the voice is to be heard beside a burner. */
const PEAK = 0.9;

/**
 * The packaged synthesiser, Flite, the same in a browser's worker and in Node: one WebAssembly program that holds its
 * voices, needs no `eval` and no other file, and takes about 20 ms for a second of speech. Free of charge for any use;
 * espeak-ng is under the GPL and no smaller, and the small svoxpico comes without its voice data.
 * "slt" is its clearest voice; its "rms" is kept for measuring the recogniser.
 */
export function createSynthesiser(program: WebAssembly.Module, voice = "slt"): Synthesise {
  return async (text) => {
    // Given no word, Flite makes a faint noise.
    if (!/[\p{L}\d]/u.test(text)) return { samples: new Float32Array(0), rate: 16_000 };
    const wav = await runWasi(program, ["flite", "-voice", voice, "-t", text, "-o", "/out.wav"]);
    return loud(soundOf(wav));
  };
}

/** Reads the plain WAV file that Flite writes: RIFF, 16 bit, mono. Throws an Error where it is something else. */
export function soundOf(wav: Uint8Array): Sound {
  const view = new DataView(wav.buffer, wav.byteOffset, wav.byteLength);
  const mark = (at: number) => String.fromCharCode(...wav.subarray(at, at + 4));
  const plain = wav.length >= 44 && mark(0) === "RIFF" && mark(36) === "data";
  if (!plain || view.getUint16(22, true) !== 1 || view.getUint16(34, true) !== 16) {
    throw new Error("expected a WAV file of 16 bit mono from the synthesiser");
  }
  const count = Math.floor(Math.min(view.getUint32(40, true), wav.length - 44) / 2);
  const samples = Float32Array.from({ length: count }, (_, i) => view.getInt16(44 + 2 * i, true) / 2 ** 15);
  return { samples, rate: view.getUint32(24, true) };
}

function loud({ samples, rate }: Sound): Sound {
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return { rate, samples: peak === 0 ? samples : samples.map((sample) => (sample * PEAK) / peak) };
}
