/**
 * Where a tensor of a layers model lies in its weights (TensorFlow.js' layers format): they follow one another. Without `quantization`
 * each number is 32 bits wide, little-endian.
 */
export interface WeightSpec {
  readonly name: string;
  readonly shape: number[];
  readonly dtype: "float32";
  readonly quantization?:
    | { readonly dtype: "float16" }
    | { readonly dtype: "uint16" | "uint8"; readonly scale: number; readonly min: number }
    | undefined;
}

/** A model that the key-word library runs: ours, or ours as taught by a person. */
export interface SpotterModel {
  readonly topology: Readonly<Record<string, unknown>>;
  readonly specs: readonly WeightSpec[];
  readonly weights: Uint8Array<ArrayBuffer>;
}

/** The shipped model. */
export interface BaseModel extends SpotterModel {
  /** SHA-256 of its weights' file, base64url. */
  readonly hash: string;
}

/** How many bytes a tensor takes in the weights. */
export function bytesOfSpec({ shape, quantization }: WeightSpec): number {
  const wide = { float16: 2, uint16: 2, uint8: 1 };
  return shape.reduce((product, side) => product * side, quantization ? wide[quantization.dtype] : 4);
}
