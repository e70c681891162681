/** Letters at a time: more arguments than so many overflow the stack. */
const SLICE = 0x6000;

/** Bytes in base64 (RFC 4648). */
export function base64Of(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += SLICE)
    text += String.fromCharCode(...bytes.subarray(at, at + SLICE));
  return btoa(text);
}

/** Throws where it is no base64. */
export function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
