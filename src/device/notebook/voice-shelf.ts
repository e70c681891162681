import type { VoiceProfile } from "../spotter/voice-profile.ts";
import type { Tables } from "./tables.ts";

/** What was learned of people's voices. It is no part of a visit and in no backup. */
export interface VoiceShelf {
  /** As they lie there: who shows them reads them (`src/app/own-voice/stored.ts`). */
  all(): Promise<readonly unknown[]>;
  /** Undefined where there is none. */
  get(id: string): Promise<unknown>;
  /** Keeps one, in place of an earlier one with its id. */
  keep(profile: VoiceProfile): Promise<void>;
  drop(id: string): Promise<void>;
}

export function voiceShelf({ voices }: Tables): VoiceShelf {
  return {
    all: () => voices.toArray(),
    get: (id) => voices.get(id),
    async keep(profile) {
      await voices.put(profile);
    },
    drop: (id) => voices.delete(id),
  };
}
