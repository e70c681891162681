import { z } from "zod";

/** SHA-256 in base64url without padding (RFC 4648): 43 signs. */
export const Sha256Text = z.string().regex(/^[\w-]{43}$/, "expected SHA-256 in base64url");

/** More than a visit is ever signed, by far. A log with more cannot be read again: none is ever given more. */
export const MOST_SIGNATURES = 1000;

/** So long at most, in signs: a statement and a public key take about 600. */
const LONGEST_SIGNATURE = 4000;

/** What a log is checked by: each entry hashed with what was before it, and who signed how far. See `record/integrity`. */
export const Integrity = z.strictObject({
  /** Of the head, then of each entry. */
  links: z.array(Sha256Text),
  /** JSON Web Signatures (RFC 7515) in their compact form, in the order in which they were made. */
  signatures: z
    .array(
      z
        .string()
        .max(LONGEST_SIGNATURE)
        .regex(/^[\w-]+\.[\w-]+\.[\w-]+$/, "expected a compact JSON Web Signature"),
    )
    .max(MOST_SIGNATURES),
});
export type Integrity = z.infer<typeof Integrity>;
