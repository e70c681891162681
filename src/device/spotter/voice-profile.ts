import type { LearnedPhones } from "../ears/offline/adaptation.ts";
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
  /** What the phrase recogniser learned from what this person confirmed; left out where it has not. */
  readonly phones?: LearnedPhones;
  /** Switched off it is kept, and not used. */
  readonly on: boolean;
}
