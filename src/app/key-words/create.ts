import type { Notebook } from "../../device/notebook/notebook.ts";
import { fetchBaseModel } from "../../device/spotter/assets-browser.ts";
import { createSpotter } from "../../device/spotter/listening.ts";
import { modelFor } from "../own-voice/active-voice.ts";
import type { Settings } from "../settings.ts";
import { Steering, type SteeringWorld } from "./steering.ts";
import { SteeringPart } from "./steering-part.tsx";

export type KeyWordsWorld = Omit<SteeringWorld, "spotter" | "settings"> & {
  readonly settings: () => Pick<Settings, "headset" | "keyWords" | "speaker">;
  readonly notebook: Pick<Notebook, "voices">;
};

/**
 * The key words of this device, what they do, and what is shown of it: nothing of that comes with the page. Each time that listening
 * starts it is for the voice of whoever speaks then.
 */
export function createSteering({ notebook, ...world }: KeyWordsWorld): Steering {
  const spotter = createSpotter(() => modelFor(notebook, world.settings().speaker, fetchBaseModel));
  return new Steering({ ...world, spotter }, SteeringPart);
}
