import type { Gain, TaughtSpotter } from "./profile.ts";

/** What a device knows of one person's voice. The recordings that it was learned from are not among it. */
export interface VoiceProfile {
  readonly id: string;
  /** As the person gave it. */
  readonly name: string;
  /** ISO 8601 in UTC. */
  readonly taughtAt: string;
  /** Its `base` says which ear it was taught to. */
  readonly spotter: TaughtSpotter;
  readonly gain: Gain;
  /** Switched off it is kept, and not used. */
  readonly on: boolean;
}
