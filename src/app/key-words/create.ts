import type { Notebook } from "../../device/notebook/notebook.ts";
import { fetchBaseModel } from "../../device/spotter/assets-browser.ts";
import { createSpotter } from "../../device/spotter/listening.ts";
import { modelFor } from "../own-voice/active-voice.ts";
import type { Settings } from "../settings.ts";
import { Steering } from "./steering.ts";
import { SteeringPart } from "./steering-part.tsx";
import type { SteeringWorld } from "./steering-world.ts";

/** What the key words need of the device: who speaks may have taught them. */
export interface KeyWordsWorld extends Omit<SteeringWorld, "spotter" | "elapsed"> {
  readonly notebook: Pick<Notebook, "voices">;
  readonly settings: () => Settings;
}

/**
 * The key words of this device, what they do, and what is shown of it: nothing of that comes with the page.
 * @param elapsed as `performance.now()`, which the windows go by
 */
export function createSteering(world: KeyWordsWorld, elapsed: () => number): Steering {
  const { notebook, settings } = world;
  const spotter = createSpotter(() => modelFor(notebook, settings().speaker, fetchBaseModel));
  return new Steering({ ...world, spotter, elapsed }, SteeringPart);
}
