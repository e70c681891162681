import * as library from "@alexanderolsen/libsamplerate-js";

/** A script of the older kind: Node hands its exports over as the default, bundlers by name. */
type Library = typeof library;
const { create, ConverterType } = "create" in library ? library : (library as { default: Library }).default;

export interface Resampler {
  /** The samples at the other rate; mono, full scale 1. */
  resample(samples: Float32Array): Float32Array;
  destroy(): void;
}

/**
 * libsamplerate's fast band-limited converter. Rates in hertz, at most 256 to 1 apart.
 * @param mode "whole": each call is a stretch of its own; "stream": each call goes on where the last ended, and the
 * last few milliseconds come out only when more is put in
 */
export async function createResampler(
  from: number,
  to: number,
  mode: "whole" | "stream",
): Promise<Resampler> {
  if (from === to) return { resample: (samples) => samples, destroy: () => undefined };
  const src = await create(1, from, to, { converterType: ConverterType.SRC_SINC_FASTEST });
  return {
    // A copy: the library hands out a view of its own buffer.
    resample: (samples) => (mode === "whole" ? src.simple(samples) : src.full(samples)).slice(),
    destroy: () => src.destroy(),
  };
}
