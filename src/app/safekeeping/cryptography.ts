import { hasCryptography, sha256 } from "../../device/signing/sha256.ts";
import { once } from "../once.ts";
import type { Cryptography } from "./signing.ts";

/** The platform's cryptography, its signatures loaded when they are first needed; null where it has none. */
export const loadCryptography = once(async (): Promise<Cryptography | null> => {
  if (!hasCryptography()) return null;
  const { makeDeviceKey, signText, verifySignature } = await import("../../device/signing/signatures.ts");
  return { sha256, verify: verifySignature, makeKey: makeDeviceKey, sign: signText };
});
