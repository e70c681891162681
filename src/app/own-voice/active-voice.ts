import type { Notebook } from "../../device/notebook/notebook.ts";
import type { VoiceProfile } from "../../device/spotter/voice-profile.ts";
import { storedVoice } from "./stored.ts";

/**
 * What was learned of the person who speaks now; null where nobody was chosen, it is switched off, or cannot be read. Whether it was
 * taught to the ear that listens is for who lays it on to say (`applyTaught`).
 * @param speaker as in the settings
 * @throws (rejects) where the notebook cannot be read
 */
export async function activeVoice(
  { voices }: Pick<Notebook, "voices">,
  speaker: string | null,
): Promise<VoiceProfile | null> {
  if (speaker === null) return null;
  const voice = storedVoice(await voices.get(speaker));
  return voice?.on ? voice : null;
}
