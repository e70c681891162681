import { z } from "zod";
import type { Finding } from "../integrity/finding.ts";

/** What the office's list knows of a visit's log: enough to find those that somebody should look at. */
export const LogFound = z.strictObject({
  verdict: z.enum(["whole", "in-part", "altered", "unsigned", "not-examined"]),
  /**
   * Thumbprint of the one key that signed a whole one, on a device that saw all of it being made (RFC 7638, base64url). Null where
   * several did, or entries came in a file: one key would then stand for what it never saw.
   */
  key: z.string().nullable(),
});
export type LogFound = z.infer<typeof LogFound>;

/** Of one that came in before bundles were linked, or that the office kept without its links. */
export const NOTHING_FOUND: LogFound = { verdict: "unsigned", key: null };

/** Null: the platform could not examine it. */
export function logFound(finding: Finding | null): LogFound {
  if (finding === null) return { verdict: "not-examined", key: null };
  if (finding.kind !== "whole") return { verdict: finding.kind, key: null };
  const [key = null, ...others] = new Set(finding.signed.map((one) => one.key));
  return { verdict: "whole", key: others.length === 0 && finding.takenIn === 0 ? key : null };
}
