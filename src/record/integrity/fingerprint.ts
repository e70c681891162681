/** So many signs are shown, in groups of four: 80 bits, which nobody finds a second key for. */
const SIGNS = 20;

/**
 * A key's thumbprint (SHA-256 in base64url) as two people compare it by telephone: its first half in hexadecimal, in groups.
 * Base64url itself cannot be read aloud: it tells large letters from small ones.
 */
export function fingerprint(thumbprint: string): string {
  const bits = [...thumbprint]
    .slice(0, Math.ceil((SIGNS * 4) / 6))
    .map((sign) => ALPHABET.indexOf(sign).toString(2).padStart(6, "0"))
    .join("");
  const signs = bits.match(/.{4}/g)?.slice(0, SIGNS) ?? [];
  const hexadecimal = signs.map((four) => Number.parseInt(four, 2).toString(16).toUpperCase()).join("");
  return hexadecimal.match(/.{1,4}/g)?.join(" ") ?? "";
}

/** RFC 4648, section 5. */
const ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
