/** Whether the platform has its cryptography: pages that came over plain http from elsewhere have none. */
export function hasCryptography(): boolean {
  return globalThis.crypto?.subtle !== undefined;
}

const UTF8 = new TextEncoder();

/** SHA-256 of a text in UTF-8, in base64url without padding. */
export async function sha256(text: string): Promise<string> {
  return base64url(new Uint8Array(await crypto.subtle.digest("SHA-256", UTF8.encode(text))));
}

function base64url(bytes: Uint8Array): string {
  const base64 = btoa(String.fromCharCode(...bytes));
  return base64.replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}
