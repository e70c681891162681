import type { Earcon } from "../answer/earcon.ts";
import type { Audio } from "./audio.ts";

/** A tone that glides from one pitch to another. */
export interface Tone {
  /** Seconds after the first. */
  readonly start: number;
  readonly seconds: number;
  /** Hz, at its beginning and at its end. */
  readonly from: number;
  readonly to: number;
  readonly shape: OscillatorType;
}

/** Of full scale. The voice peaks at 0.9: the tones stay well below it. */
const VOLUME = 0.12;
/** Seconds in which a tone swells and fades, so that it does not click. */
const EDGE = 0.01;

/**
 * They differ in how many tones there are and where they go, for who cannot tell pitches apart, or hears few of them over a
 * burner: one up, two up, three that stay low and rattle. Our own choice.
 */
const TONES: Readonly<Record<Earcon, readonly Tone[]>> = {
  none: [],
  heard: [{ start: 0, seconds: 0.12, from: 520, to: 780, shape: "sine" }],
  asking: [
    { start: 0, seconds: 0.12, from: 520, to: 780, shape: "sine" },
    { start: 0.18, seconds: 0.14, from: 620, to: 1040, shape: "sine" },
  ],
  warning: [0, 0.18, 0.36].map((start) => ({ start, seconds: 0.13, from: 230, to: 210, shape: "square" })),
};

export function tonesOf(earcon: Earcon): readonly Tone[] {
  return TONES[earcon];
}

/** How long an earcon lasts, seconds. */
export function lengthOf(earcon: Earcon): number {
  return Math.max(0, ...TONES[earcon].map(({ start, seconds }) => start + seconds));
}

/** Draws an earcon into a context, from its present time on. */
function drawEarcon(context: BaseAudioContext, earcon: Earcon): void {
  for (const { start, seconds, from, to, shape } of TONES[earcon]) {
    const at = context.currentTime + start;
    const end = at + seconds;
    const volume = context.createGain();
    volume.gain.setValueAtTime(0, at);
    volume.gain.linearRampToValueAtTime(VOLUME, at + EDGE);
    volume.gain.setValueAtTime(VOLUME, end - EDGE);
    volume.gain.linearRampToValueAtTime(0, end);
    const oscillator = context.createOscillator();
    oscillator.type = shape;
    oscillator.frequency.setValueAtTime(from, at);
    oscillator.frequency.linearRampToValueAtTime(to, end);
    oscillator.connect(volume).connect(context.destination);
    oscillator.start(at);
    oscillator.stop(end);
  }
}

/** Sounds an earcon; resolves when it is over, at once where the page may make no sound. */
export function createEarcons(audio: Audio): (earcon: Earcon) => Promise<void> {
  return async (earcon) => {
    if (TONES[earcon].length === 0) return;
    const context = await audio.running();
    if (!context) return;
    drawEarcon(context, earcon);
    await new Promise((resolve) => {
      setTimeout(resolve, 1000 * lengthOf(earcon));
    });
  };
}
