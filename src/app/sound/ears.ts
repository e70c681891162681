import startLanguage from "virtual:language/start";
import { elapsedMs } from "../../device/clock.ts";
import type { Ear } from "../../device/ears/ear.ts";
import type { PlatformOffer } from "../../device/ears/platform.ts";
import type { EarLanguage } from "../../meaning/network.ts";
import type { KeyWordsWorld } from "../key-words/create.ts";
import type { Steering } from "../key-words/steering.ts";

/** Which language is listened for: that of a visit, or the start page's small one. */
export type Tongue = "visit" | "start";

/** The recognisers that can be chosen; each is loaded only when it is asked for. */
export interface Ears {
  /** `fetched`: as `createOfflineEar` takes it. */
  offline(of: Tongue, fetched: (given: AbortSignal) => Promise<void>): Promise<Ear>;
  /** `maySend`: whether the person agreed that sound leaves the device. */
  platform(maySend: boolean, of: Tongue): Promise<Ear>;
  /** What listens for key words and acts on them. Rejects where it cannot be loaded. */
  steering(world: KeyWordsWorld): Promise<Steering>;
  /** What the browser offers of its own. */
  platformOffer(): Promise<PlatformOffer>;
}

/** The ears' part of a visit's language is half of it: loaded with the first ear. */
const languageOf = async (of: Tongue): Promise<EarLanguage> =>
  of === "visit" ? (await import("virtual:language/ear")).default : startLanguage;

export function createEars(): Ears {
  return {
    async offline(of, fetched) {
      const { createOfflineEar } = await import("../../device/ears/offline/ear.ts");
      return createOfflineEar(await languageOf(of), fetched);
    },
    async platform(maySend, of) {
      const { createPlatformEar } = await import("../../device/ears/platform.ts");
      return createPlatformEar(await languageOf(of), {
        allowRemote: maySend,
        clock: elapsedMs,
        scope: window,
      });
    },
    async steering(world) {
      const { createSteering } = await import("../key-words/create.ts");
      return createSteering(world, elapsedMs);
    },
    async platformOffer() {
      const { platformOffer } = await import("../../device/ears/platform.ts");
      return platformOffer(document.documentElement.lang, window);
    },
  };
}
