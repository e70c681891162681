import { type RoomNoise, roomNoise } from "./levels.ts";
import { again, apart, type HeardWindow, type Outcome, OVER_NOISE, TOO_LOUD } from "./take.ts";

/** Between two takes of the noise, ms: half of each is new. */
const APART_MS = 500;
/** A room whose noise is sometimes so far above its low is one in which somebody speaks, dB. */
const SPOKE = 15;
/** Of these takes one is held back. */
const HELD_BACK_OF = 4;

/** The room as it is in these windows; null where there are none yet. */
export function roomIn(windows: readonly HeardWindow[]): RoomNoise | null {
  return windows.length === 0 ? null : roomNoise(windows.flatMap(({ levels }) => levels));
}

/** Whether there is room for a voice between this noise and where it would be clipped. */
export function isTooNoisy({ usual }: RoomNoise): boolean {
  return usual + 2 * OVER_NOISE > TOO_LOUD;
}

/** The room's own noise, for so many ms since the person was asked to say nothing. */
export function hearNoise(windows: readonly HeardWindow[], since: number, ms: number): Outcome {
  const last = windows.at(-1);
  const room = roomIn(windows);
  if (!last || !room || last.at - since < ms) return { kind: "wait", begun: windows.length > 0 };
  const loudest = Math.max(...windows.flatMap(({ levels }) => levels));
  // In a quiet room every breath is far above its noise.
  if (loudest > Math.max(room.low + SPOKE, -50)) return again({ kind: "spoke" });
  return {
    kind: "taken",
    differed: false,
    takes: apart(windows, APART_MS).map(({ spectrogram }, place) => ({
      label: "_background_noise_",
      spectrogram,
      heldBack: place % HELD_BACK_OF === 1,
    })),
  };
}
