import { BANDS } from "./mel.ts";
import type { Weights } from "./weights.ts";

/** Says of each frame how likely a person speaks in it, 0 to 1, from that frame and those before. */
export interface VoiceDetector {
  frame(energies: Float32Array): number;
  reset(): void;
}

/** One gated recurrent layer (Cho et al. 2014, in PyTorch's form): small enough to run in plain script, 100 times a second. */
export function createVoiceDetector(weights: Weights): VoiceDetector {
  const [input, recurrent] = [weights.get("voice.input"), weights.get("voice.recurrent")];
  const [inputBias, recurrentBias] = [weights.get("voice.inputBias"), weights.get("voice.recurrentBias")];
  const [head, headBias] = [weights.get("voice.head"), weights.get("voice.headBias")];
  const hidden = head.values.length;
  const features = new Float32Array(BANDS);
  let state = new Float32Array(hidden);
  const fromInput = new Float32Array(3 * hidden);
  const fromState = new Float32Array(3 * hidden);

  return {
    frame(energies) {
      for (let band = 0; band < BANDS; band++) {
        features[band] = (Math.log((energies[band] ?? 0) + 1e-8) + 8) / 4;
      }
      product(fromInput, input.values, features, inputBias.values);
      product(fromState, recurrent.values, state, recurrentBias.values);
      const next = new Float32Array(hidden);
      let sum = headBias.values[0] ?? 0;
      for (let at = 0; at < hidden; at++) {
        const reset = sigmoid((fromInput[at] ?? 0) + (fromState[at] ?? 0));
        const update = sigmoid((fromInput[hidden + at] ?? 0) + (fromState[hidden + at] ?? 0));
        const fresh = Math.tanh(
          (fromInput[2 * hidden + at] ?? 0) + reset * (fromState[2 * hidden + at] ?? 0),
        );
        const value = (1 - update) * fresh + update * (state[at] ?? 0);
        next[at] = value;
        sum += value * (head.values[at] ?? 0);
      }
      state = next;
      return sigmoid(sum);
    },
    reset() {
      state = new Float32Array(hidden);
    },
  };
}

/** out = matrix x vector + bias; the matrix row by row. */
function product(out: Float32Array, matrix: Float32Array, vector: Float32Array, bias: Float32Array): void {
  const width = vector.length;
  for (let row = 0; row < out.length; row++) {
    let sum = bias[row] ?? 0;
    for (let at = 0, from = row * width; at < width; at++)
      sum += (matrix[from + at] ?? 0) * (vector[at] ?? 0);
    out[row] = sum;
  }
}

function sigmoid(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
