import type { Ear, EarEvent } from "../../src/device/ears/ear.ts";
import type { Utterance } from "../../src/meaning/heard.ts";

/** An utterance of these words, one way to hear it. */
export function utterance(text: string, confidence = 0.95, change: Partial<Utterance> = {}): Utterance {
  const words = text.split(" ").map((word) => ({ word, confidence, start: 0, end: 1 }));
  return {
    engine: "offline",
    hypotheses: [{ words, confidence }],
    rejected: false,
    audioSeconds: 1,
    computeSeconds: 0.1,
    sound: null,
    ...change,
  };
}

/** An ear that says what the test makes it say, and tells whether it listens. */
export function puppetEar() {
  let emit: (event: EarEvent) => void = () => undefined;
  let listens = false;
  const ear: Ear = {
    engine: "offline",
    async listen(on) {
      emit = on;
      listens = true;
      on({ kind: "listening" });
    },
    voiceSounds: () => undefined,
    async stop() {
      listens = false;
    },
  };
  return {
    ear,
    listens: () => listens,
    emit: (event: EarEvent) => emit(event),
    hears: (one: Utterance) => emit({ kind: "utterance", utterance: one, over: false }),
  };
}

/** What was begun and not awaited is done. */
export const settled = () => new Promise<void>((resolve) => setImmediate(resolve));
