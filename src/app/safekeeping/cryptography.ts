import { sha256 } from "../../device/signing/sha256.ts";
import { makeDeviceKey, signText, verifySignature } from "../../device/signing/signatures.ts";
import { examine } from "../../record/integrity/examine.ts";
import { statementText } from "../../record/integrity/statement.ts";
import type { Cryptography } from "./signing.ts";

/** Web Crypto, as logs are examined and signed by it. */
export const CRYPTOGRAPHY: Cryptography = {
  examine: (visit, breathe) => examine(visit, { sha256, verify: verifySignature }, breathe),
  makeKey: makeDeviceKey,
  sign: (statement, key) => signText(statementText(statement), key),
};
