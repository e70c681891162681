import { elapsedMs } from "../device/clock.ts";
import type { Ear } from "../device/ears/ear.ts";
import type { PlatformOffer } from "../device/ears/platform.ts";

/** The recognisers that can be chosen; each is loaded only when it is asked for. */
export interface Ears {
  /** `fetched`: as `createOfflineEar` takes it. */
  offline(fetched: (given: AbortSignal) => Promise<void>): Promise<Ear>;
  /** `maySend`: whether the person agreed that sound leaves the device. */
  platform(maySend: boolean): Promise<Ear>;
  /** What the browser offers of its own. */
  platformOffer(): Promise<PlatformOffer>;
}

/** The ears' part of the language is half of it: loaded with the first ear. */
const earLanguage = async () => (await import("virtual:language/ear")).default;

export function createEars(): Ears {
  return {
    async offline(fetched) {
      const { createOfflineEar } = await import("../device/ears/offline/ear.ts");
      return createOfflineEar(await earLanguage(), fetched);
    },
    async platform(maySend) {
      const { createPlatformEar } = await import("../device/ears/platform.ts");
      return createPlatformEar(await earLanguage(), {
        allowRemote: maySend,
        clock: elapsedMs,
        scope: window,
      });
    },
    async platformOffer() {
      const { platformOffer } = await import("../device/ears/platform.ts");
      return platformOffer(document.documentElement.lang, window);
    },
  };
}
