/** What grammars/en/acoustic/export.py writes beside the weights: where each tensor lies in the file, and how. */
export interface Manifest {
  readonly format: "burnerside-ear/1";
  readonly phones: readonly string[];
  readonly tensors: readonly Placed[];
}

interface At {
  readonly name: string;
  readonly shape: readonly number[];
  /** In bytes from the start of the file; even. */
  readonly offset: number;
}

/** `int8`: for each channel (the side that varies fastest) a 16-bit scale, then whole numbers to be multiplied by it. */
type Placed =
  | (At & { readonly type: "float16" })
  | (At & { readonly type: "int8"; readonly channels: number });

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
    this.phones = manifest.phones;
    this.#tensors = new Map(
      manifest.tensors.map((placed) => {
        const { name, shape, offset } = placed;
        const size = shape.reduce((product, side) => product * side, 1);
        const end = offset + (placed.type === "int8" ? 2 * placed.channels + size : 2 * size);
        if (end > file.length) {
          throw new Error(`The ear's weights end at byte ${file.length}: expected ${name} up to ${end}.`);
        }
        const values =
          placed.type === "int8"
            ? scaled(file, offset, placed.channels, size)
            : widened(file.subarray(offset, end));
        return [name, { shape, values }];
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

function scaled(file: Uint8Array<ArrayBuffer>, offset: number, channels: number, size: number): Float32Array {
  const whole = offset + 2 * channels;
  const scales = widened(file.subarray(offset, whole));
  const values = new Int8Array(file.buffer, file.byteOffset + whole, size);
  return Float32Array.from(values, (value, at) => value * (scales[at % channels] ?? 0));
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
