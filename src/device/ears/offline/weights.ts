/** What grammars/en/acoustic/export.py writes beside the weights: where each tensor lies in the file of 16-bit floats. */
export interface Manifest {
  readonly format: "burnerside-ear/1";
  readonly phones: readonly string[];
  readonly tensors: readonly {
    readonly name: string;
    readonly shape: readonly number[];
    /** In values from the start of the file. */
    readonly offset: number;
  }[];
}

/** @throws where it is not the manifest of this version's weights */
export function readManifest(text: string): Manifest {
  const read: Manifest = JSON.parse(text);
  if (read.format !== "burnerside-ear/1")
    throw new Error(`The ear's model.json is of the format ${read.format}.`);
  return read;
}

export interface Tensor {
  readonly shape: readonly number[];
  readonly values: Float32Array;
}

/** The trained numbers of both models by name. */
export class Weights {
  readonly phones: readonly string[];
  readonly #tensors: ReadonlyMap<string, Tensor>;

  /** @throws where the file is shorter than the manifest says: half a download */
  constructor(manifest: Manifest, file: Uint8Array<ArrayBuffer>) {
    const values = widened(file);
    this.phones = manifest.phones;
    this.#tensors = new Map(
      manifest.tensors.map(({ name, shape, offset }) => {
        const size = shape.reduce((product, side) => product * side, 1);
        if (offset + size > values.length) {
          throw new Error(
            `The ear's weights end at ${values.length}: expected ${name} up to ${offset + size}.`,
          );
        }
        return [name, { shape, values: values.subarray(offset, offset + size) }];
      }),
    );
  }

  /** @throws where there is no such tensor */
  get(name: string): Tensor {
    const tensor = this.#tensors.get(name);
    if (!tensor) throw new Error(`The ear's weights lack ${name}.`);
    return tensor;
  }

  has(name: string): boolean {
    return this.#tensors.has(name);
  }
}

/** IEEE 754 binary16, little-endian, to 32 bits. */
function widened(file: Uint8Array<ArrayBuffer>): Float32Array {
  const halves = new Uint16Array(file.buffer, file.byteOffset, file.byteLength >> 1);
  return Float32Array.from(halves, (half) => {
    const sign = half & 0x8000 ? -1 : 1;
    const exponent = (half >> 10) & 0x1f;
    const fraction = half & 0x3ff;
    if (exponent === 0) return sign * fraction * 2 ** -24;
    return sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
  });
}
