import type { LearnedPhones } from "../../device/ears/offline/adaptation.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { BaseModel, SpotterModel } from "../../device/spotter/base.ts";
import { applyTaught } from "../../device/spotter/taught.ts";
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

/** What the phrase recogniser learned of the person who speaks now; null where it has not, or is not to use it. */
export async function activePhones(
  notebook: Pick<Notebook, "voices">,
  speaker: string | null,
): Promise<LearnedPhones | null> {
  return (await activeVoice(notebook, speaker))?.phones ?? null;
}

/**
 * The model to listen with: the shipped one, with what was learned of the person who speaks now laid over it. A voice that does not fit
 * it, or a notebook that cannot be read, leave the shipped one: the settings say so, and key words go on being heard.
 * @param base gives the shipped model
 * @throws (rejects) where the shipped model cannot be loaded
 */
export async function modelFor(
  notebook: Pick<Notebook, "voices">,
  speaker: string | null,
  base: () => Promise<BaseModel>,
): Promise<SpotterModel> {
  const [shipped, voice] = await Promise.all([base(), activeVoice(notebook, speaker).catch(() => null)]);
  if (!voice) return shipped;
  const applied = applyTaught(shipped, voice.spotter);
  return applied.ok ? applied.model : shipped;
}
