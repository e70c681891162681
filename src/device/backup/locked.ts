import type { LockedHead } from "../../record/backup/locked.ts";
import { base64Of, bytesOf } from "../base64.ts";
import { cut } from "./streams.ts";

/** What is wrong with a locked backup as its key finds it. */
export class CannotUnlock extends Error {
  override readonly name = "CannotUnlock";
}

/** Random bytes in base64, from the platform's source for keys. */
export function randomBase64(bytes: number): string {
  return base64Of(crypto.getRandomValues(new Uint8Array(bytes)));
}

/**
 * The key of a passphrase, which has to be normalised already. Takes as long as the head's iterations ask for; the key cannot be
 * taken out of the browser.
 */
export async function keyOf(passphrase: string, { kdf, cipher }: LockedHead): Promise<CryptoKey> {
  const material = await crypto.subtle.importKey(
    "raw",
    new TextEncoder().encode(passphrase),
    kdf.name,
    false,
    ["deriveKey"],
  );
  const { name, hash, iterations } = kdf;
  return crypto.subtle.deriveKey(
    { name, hash, iterations, salt: bytesOf(kdf.salt) },
    material,
    { name: cipher.name, length: cipher.bits },
    false,
    ["encrypt", "decrypt"],
  );
}

/** The first line, and then the pieces, encrypted. */
export async function* locked(
  pieces: AsyncIterable<Uint8Array>,
  key: CryptoKey,
  head: LockedHead,
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  const line = new TextEncoder().encode(JSON.stringify(head));
  yield new Uint8Array([...line, NEWLINE]);
  let number = 0;
  for await (const { bytes, last } of cut(pieces, head.cipher.piece)) {
    const params = paramsOf(head, line, number, last);
    yield new Uint8Array(await crypto.subtle.encrypt(params, key, bytes));
    number += 1;
  }
}

/**
 * The pieces behind the first line (`line`, without its newline), decrypted. Throws CannotUnlock at the first that was not
 * locked with this key and this head, in this place: nothing that was changed is ever given.
 */
export async function* unlocked(
  pieces: AsyncIterable<Uint8Array>,
  key: CryptoKey,
  head: LockedHead,
  line: Uint8Array,
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  let number = 0;
  for await (const { bytes, last } of cut(pieces, head.cipher.piece + TAG)) {
    const params = paramsOf(head, line, number, last);
    let clear: ArrayBuffer;
    try {
      clear = await crypto.subtle.decrypt(params, key, bytes);
    } catch {
      // Web Crypto does not say why, and cannot know.
      throw new CannotUnlock(
        number === 0
          ? "the passphrase is not the one of this file, or the file was changed: the two look alike"
          : `piece ${number + 1} of the locked file was cut or changed`,
      );
    }
    yield new Uint8Array(clear);
    number += 1;
  }
}

const NEWLINE = 10;
const TAG = 16;
const NONCE = 12;

function paramsOf({ cipher }: LockedHead, line: Uint8Array, number: number, last: boolean): AesGcmParams {
  const iv = new Uint8Array(NONCE);
  iv.set(bytesOf(cipher.prefix));
  const view = new DataView(iv.buffer);
  view.setUint32(7, number);
  view.setUint8(11, last ? 1 : 0);
  return { name: cipher.name, iv, additionalData: new Uint8Array(line), tagLength: TAG * 8 };
}
