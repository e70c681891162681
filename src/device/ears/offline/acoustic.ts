import * as tf from "@tensorflow/tfjs-core";
import { BANDS } from "./mel.ts";
import type { PhoneHead } from "./own-head.ts";
import type { Weights } from "./weights.ts";

/** Which phone is heard when: for each 20 ms step the logarithms of the chances of the phones, then of the blank. */
export interface Chances {
  readonly steps: number;
  /** Symbols: the phones in the order of the weights, then the blank. */
  readonly symbols: number;
  /** steps x symbols, row by row; natural logarithms. */
  readonly logs: Float32Array;
}

export interface Acoustic {
  /** @param features frames x 40, as phoneFeatures makes them; at least one frame */
  chances(features: Float32Array): Chances;
  /** What the head is given: steps x channels, row by row. */
  hidden(features: Float32Array): Float32Array;
  destroy(): void;
}

interface Convolution {
  readonly filter: tf.Tensor4D;
  readonly bias: tf.Tensor1D;
}

interface Block {
  readonly depth: readonly tf.Tensor4D[];
  readonly point: readonly Convolution[];
  readonly squeeze: readonly [tf.Tensor2D, tf.Tensor1D];
  readonly expand: readonly [tf.Tensor2D, tf.Tensor1D];
}

/**
 * The phone model on TensorFlow.js, whatever backend is set (grammars/en/acoustic/model.py is its definition; batch
 * norms are folded into the convolutions by export.py). Time runs along the height of a picture one pixel wide.
 * @param own a person's own head, in place of the shipped one; of the same model
 */
export function createAcoustic(weights: Weights, own: PhoneHead | null = null): Acoustic {
  const kept: tf.Tensor[] = [];
  const tensor = <T extends tf.Tensor>(name: string, own?: Float32Array): T => {
    const { shape, values } = weights.get(name);
    const made = tf.tensor(own ?? values, [...shape]);
    kept.push(made);
    return made as T;
  };
  const convolution = (name: string, own: PhoneHead | null = null): Convolution => ({
    filter: tensor(`${name}.filter`, own?.kernel),
    bias: tensor(`${name}.bias`, own?.bias),
  });
  const blocks: Block[] = [];
  for (let at = 0; weights.has(`block${at}.0.depth`); at++) {
    const name = `block${at}`;
    blocks.push({
      depth: [tensor(`${name}.0.depth`), tensor(`${name}.1.depth`)],
      point: [convolution(`${name}.0.point`), convolution(`${name}.1.point`)],
      squeeze: [tensor(`${name}.squeeze.matrix`), tensor(`${name}.squeeze.bias`)],
      expand: [tensor(`${name}.expand.matrix`), tensor(`${name}.expand.bias`)],
    });
  }
  const front = convolution("front");
  const head = convolution("head", own);

  const convolve = (
    x: tf.Tensor4D,
    { filter, bias }: Convolution,
    activation: "relu" | "linear",
    strides: [number, number] = [1, 1],
    pad: "valid" | "same" = "valid",
  ): tf.Tensor4D => tf.fused.conv2d({ x, filter, bias, strides, pad, activation });

  const through = (x: tf.Tensor4D, block: Block): tf.Tensor4D => {
    const [depth0, depth1] = block.depth;
    const [point0, point1] = block.point;
    if (!depth0 || !depth1 || !point0 || !point1) throw new Error("The ear's model lacks a convolution.");
    const first = convolve(tf.depthwiseConv2d(x, depth0, 1, "same"), point0, "relu");
    const second = convolve(tf.depthwiseConv2d(first, depth1, 1, "same"), point1, "linear");
    const mean = tf.mean<tf.Tensor2D>(second, [1, 2]);
    const squeezed = tf.relu(tf.add<tf.Tensor2D>(tf.matMul(mean, block.squeeze[0]), block.squeeze[1]));
    const gate = tf.sigmoid(tf.add<tf.Tensor2D>(tf.matMul(squeezed, block.expand[0]), block.expand[1]));
    const gated = tf.mul(second, tf.reshape(gate, [1, 1, 1, -1]));
    return tf.relu(tf.add<tf.Tensor4D>(x, gated));
  };

  /** The outputs of the last block. */
  const hidden = (features: Float32Array): tf.Tensor4D => {
    const frames = features.length / BANDS;
    const image = tf.tensor4d(features, [1, frames, 1, BANDS]);
    // Two frames of nothing on either side, as in training.
    const padded = tf.pad(image, [
      [0, 0],
      [2, 2],
      [0, 0],
      [0, 0],
    ]);
    const begun = convolve(padded, front, "relu", [2, 1]);
    return blocks.reduce(through, begun);
  };

  return {
    hidden(features) {
      const values = tf.tidy(() => hidden(features));
      const out = Float32Array.from(values.dataSync());
      values.dispose();
      return out;
    },
    chances(features) {
      const logs = tf.tidy(() => {
        const last = hidden(features);
        return tf.logSoftmax(tf.squeeze(convolve(last, head, "linear"), [0, 2]));
      });
      const [steps = 0, symbols = 0] = logs.shape;
      const values = logs.dataSync();
      logs.dispose();
      return { steps, symbols, logs: Float32Array.from(values) };
    },
    destroy() {
      for (const one of kept) one.dispose();
    },
  };
}
