import {
  CompactSign,
  calculateJwkThumbprint,
  compactVerify,
  EmbeddedJWK,
  exportJWK,
  generateKeyPair,
  type JWK,
} from "jose";
import type { SignatureRead } from "../../record/integrity/examine.ts";
import type { DeviceKey, PublicKey } from "./device-key.ts";

/** ECDSA with P-256 and SHA-256 (RFC 7518): the one that every Web Crypto has. */
const ALGORITHM = "ES256";

/** Makes a key whose private half never leaves the browser. Rejects where the platform has no cryptography. */
export async function makeDeviceKey(): Promise<DeviceKey> {
  const { privateKey, publicKey } = await generateKeyPair(ALGORITHM, { extractable: false });
  const jwk = publicOf(await exportJWK(publicKey));
  return { id: "device", privateKey, publicKey: jwk, thumbprint: await calculateJwkThumbprint(jwk) };
}

/** Signs a text: a JSON Web Signature in its compact form, with the public key in its header. */
export function signText(text: string, { privateKey, publicKey }: DeviceKey): Promise<string> {
  return new CompactSign(new TextEncoder().encode(text))
    .setProtectedHeader({ alg: ALGORITHM, jwk: publicKey })
    .sign(privateKey);
}

/** Verifies a signature with the public key that it carries: that is whose it is, not that this key is known. Never rejects. */
export async function verifySignature(signature: string): Promise<SignatureRead> {
  try {
    const { payload, protectedHeader } = await compactVerify(signature, EmbeddedJWK, {
      algorithms: [ALGORITHM],
    });
    const { jwk } = protectedHeader;
    if (!jwk) return { ok: false };
    return {
      ok: true,
      payload: new TextDecoder().decode(payload),
      key: await calculateJwkThumbprint(publicOf(jwk)),
    };
  } catch {
    return { ok: false };
  }
}

function publicOf({ kty, crv, x, y }: JWK): PublicKey {
  if (kty !== "EC" || crv !== "P-256" || x === undefined || y === undefined)
    throw new TypeError("Expected an elliptic key on P-256.");
  return { kty: "EC", crv: "P-256", x, y };
}
