import type { VoiceProfile } from "../../device/spotter/voice-profile.ts";
import { harmless } from "../../measure/harmless.ts";

/** How the people are named in lists and on buttons, by their ids: of those of one name all but the first taught have a number. */
export function labelsOf(
  voices: readonly Pick<VoiceProfile, "id" | "name" | "taughtAt">[],
): ReadonlyMap<string, string> {
  const labels = new Map<string, string>();
  const taken = new Set<string>();
  for (const { id, name } of voices.toSorted((a, b) => a.taughtAt.localeCompare(b.taughtAt))) {
    const shown = harmless(name);
    let label = shown;
    for (let number = 2; taken.has(label); number += 1) label = `${shown} (${number})`;
    taken.add(label);
    labels.set(id, label);
  }
  return labels;
}
