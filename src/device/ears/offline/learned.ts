import { hasCryptography, sha256OfBytes } from "../../signing/sha256.ts";
import type { LearnedPhones } from "./adaptation.ts";
import type { EarAssets } from "./recogniser.ts";

/**
 * The ear with what was learned of a person. Without it where that is switched off, was learned on another model, as after an update, or
 * where the platform has no cryptography to tell.
 */
export async function withLearned(assets: EarAssets, phones: LearnedPhones | null): Promise<EarAssets> {
  if (!phones?.on || !hasCryptography()) return assets;
  return (await sha256OfBytes(assets.weights)) === phones.base ? { ...assets, head: phones.head } : assets;
}
