/**
 * A new identifier: 128 random bits in hexadecimal. `crypto.randomUUID` would do, but is missing on plain-http
 * addresses, where typing still has to work.
 */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
