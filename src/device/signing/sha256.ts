import { base64Of } from "../base64.ts";

/** Why nothing can be hashed, signed or locked, where `hasCryptography` says so. */
export const NO_CRYPTOGRAPHY =
  "this page came over plain http, where the browser has no cryptography: open it at an https address";

/** Whether the platform has its cryptography: pages that came over plain http from elsewhere have none. */
export function hasCryptography(): boolean {
  return globalThis.crypto?.subtle !== undefined;
}

const UTF8 = new TextEncoder();

/** SHA-256 of a text in UTF-8, in base64url without padding. */
export function sha256(text: string): Promise<string> {
  return sha256OfBytes(UTF8.encode(text));
}

/** SHA-256 of bytes, in base64url without padding. */
export async function sha256OfBytes(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  return base64url(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
}

function base64url(bytes: Uint8Array): string {
  return base64Of(bytes).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}
