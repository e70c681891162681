import { type BaseModel, bytesOfSpec, type SpotterModel } from "./base.ts";
import type { DenseWeights, TaughtSpotter } from "./profile.ts";

/** Why what a person taught cannot be laid onto the shipped model. */
export type Refusal =
  /** It was learned on another model, as after an update: it has to be taught anew. */
  | { readonly kind: "another-base" }
  /** A layer is of another size, or not all of it is numbers. */
  | { readonly kind: "damaged"; readonly layer: "hidden" | "head" };

export type Applied =
  | { readonly ok: true; readonly model: SpotterModel }
  | { readonly ok: false; readonly refusal: Refusal };

/** The shipped model with a person's last two layers in place of its own. */
export function applyTaught(base: BaseModel, taught: TaughtSpotter): Applied {
  if (taught.base !== base.hash) return { ok: false, refusal: { kind: "another-base" } };
  for (const layer of ["hidden", "head"] as const) {
    if (!fits(base, layer, taught[layer])) return { ok: false, refusal: { kind: "damaged", layer } };
  }
  const replaced = new Map([
    ["hidden/kernel", taught.hidden.kernel],
    ["hidden/bias", taught.hidden.bias],
    ["head/kernel", taught.head.kernel],
    ["head/bias", taught.head.bias],
  ]);
  let at = 0;
  const parts: Uint8Array[] = [];
  const specs = base.specs.map((spec) => {
    const end = at + bytesOfSpec(spec);
    const values = replaced.get(spec.name);
    parts.push(values ? bytesOfFloats(values) : base.weights.subarray(at, end));
    at = end;
    if (!values) return spec;
    const { quantization: _, ...plain } = spec;
    return plain;
  });
  return { ok: true, model: { topology: base.topology, specs, weights: joined(parts) } };
}

function fits(base: BaseModel, layer: string, { kernel, bias }: DenseWeights): boolean {
  const sized = (name: string, values: Float32Array): boolean => {
    const shape = base.specs.find((spec) => spec.name === name)?.shape;
    return shape?.reduce((product, side) => product * side, 1) === values.length;
  };
  return (
    sized(`${layer}/kernel`, kernel) &&
    sized(`${layer}/bias`, bias) &&
    kernel.every(Number.isFinite) &&
    bias.every(Number.isFinite)
  );
}

/** Little-endian, whatever the device is. */
function bytesOfFloats(values: Float32Array): Uint8Array {
  const view = new DataView(new ArrayBuffer(4 * values.length));
  values.forEach((value, at) => {
    view.setFloat32(4 * at, value, true);
  });
  return new Uint8Array(view.buffer);
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
