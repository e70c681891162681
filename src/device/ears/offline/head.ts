import type { Chances } from "./acoustic.ts";
import { align, type Chain } from "./ctc.ts";
import { CHANNELS, type PhoneHead, SYMBOLS } from "./own-head.ts";

/** What the head is given for one utterance, and what was said in it. */
export interface Example {
  /** steps x `CHANNELS`, as `Acoustic.hidden` gives them; most are 0. */
  readonly hidden: Float32Array;
  readonly chain: Chain;
}

/** What a head makes of it, in plain script: the same as `Acoustic.chances`. */
export function chancesOf({ kernel, bias }: PhoneHead, hidden: Float32Array): Chances {
  const steps = hidden.length / CHANNELS;
  const logs = new Float32Array(steps * SYMBOLS);
  const sums = new Float64Array(SYMBOLS);
  for (let step = 0; step < steps; step++) {
    sums.set(bias);
    for (let channel = 0; channel < CHANNELS; channel++) {
      const value = hidden[step * CHANNELS + channel] ?? 0;
      if (value === 0) continue;
      const row = channel * SYMBOLS;
      for (let symbol = 0; symbol < SYMBOLS; symbol++)
        sums[symbol] = (sums[symbol] ?? 0) + value * (kernel[row + symbol] ?? 0);
    }
    let all = 0;
    const top = sums.reduce((most, one) => Math.max(most, one));
    for (const sum of sums) all += Math.exp(sum - top);
    const whole = top + Math.log(all);
    for (let symbol = 0; symbol < SYMBOLS; symbol++)
      logs[step * SYMBOLS + symbol] = (sums[symbol] ?? 0) - whole;
  }
  return { steps, symbols: SYMBOLS, logs };
}

/** The loss of some examples, nats, and its gradient, all steps added up. */
export interface Slope {
  loss: number;
  steps: number;
  readonly kernel: Float64Array;
  readonly bias: Float64Array;
}

export function flat(): Slope {
  return { loss: 0, steps: 0, kernel: new Float64Array(CHANNELS * SYMBOLS), bias: new Float64Array(SYMBOLS) };
}

/** Adds those of one example. One that is too short for its text adds nothing. */
export function addSlope(into: Slope, head: PhoneHead, { hidden, chain }: Example): void {
  const chances = chancesOf(head, hidden);
  const aligned = align(chain, chances);
  if (!aligned) return;
  into.loss -= aligned.log;
  into.steps += chances.steps;
  const slope = chances.logs.map((log, at) => Math.exp(log) - (aligned.shares[at] ?? 0));
  for (let step = 0; step < chances.steps; step++) {
    const from = step * SYMBOLS;
    for (let symbol = 0; symbol < SYMBOLS; symbol++)
      into.bias[symbol] = (into.bias[symbol] ?? 0) + (slope[from + symbol] ?? 0);
    for (let channel = 0; channel < CHANNELS; channel++) {
      const value = hidden[step * CHANNELS + channel] ?? 0;
      if (value === 0) continue;
      const row = channel * SYMBOLS;
      for (let symbol = 0; symbol < SYMBOLS; symbol++)
        into.kernel[row + symbol] = (into.kernel[row + symbol] ?? 0) + value * (slope[from + symbol] ?? 0);
    }
  }
}
