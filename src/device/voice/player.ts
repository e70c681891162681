import type { Audio } from "../audio.ts";
import type { Sound } from "./synthesise.ts";

/** Plays one sound at a time. */
export interface Player {
  /** Resolves when it is over or was stopped, to true; to false where the page may make no sound. */
  play(sound: Sound): Promise<boolean>;
  /** Silence from the next block of the audio thread on: 3 ms, and what the device has buffered. */
  stop(): void;
}

/** How much later than its own length a sound may end, ms: a context that a phone call has taken never ends it. */
const GRACE_MS = 2000;

export function createPlayer(audio: Audio): Player {
  let end: () => void = () => undefined;
  return {
    async play({ samples, rate }) {
      let stopped = false;
      end = () => {
        stopped = true;
      };
      const context = await audio.running();
      if (!context) return false;
      if (stopped || samples.length === 0) return true;
      const buffer = context.createBuffer(1, samples.length, rate);
      buffer.copyToChannel(samples, 0);
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(context.destination);
      return new Promise((resolve) => {
        const over = () => {
          clearTimeout(timer);
          source.disconnect();
          resolve(true);
        };
        const timer = setTimeout(over, (1000 * samples.length) / rate + GRACE_MS);
        end = () => {
          source.stop();
          over();
        };
        source.onended = over;
        source.start();
      });
    },
    stop() {
      end();
      end = () => undefined;
    },
  };
}
