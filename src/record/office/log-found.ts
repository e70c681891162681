import { z } from "zod";
import type { Finding } from "../integrity/finding.ts";

/** What the office's list knows of a visit's log: enough to find those that somebody should look at. */
export const LogFound = z.strictObject({
  verdict: z.enum(["whole", "altered", "unsigned", "not-examined"]),
  /** Thumbprint of the key that signed most of a whole one, the last where several did (RFC 7638, base64url); null else. */
  key: z.string().nullable(),
});
export type LogFound = z.infer<typeof LogFound>;

/** Of one that came in before bundles were linked, or that the office kept without its links. */
export const NOTHING_FOUND: LogFound = { verdict: "unsigned", key: null };

/** Null: the platform could not examine it. */
export function logFound(finding: Finding | null): LogFound {
  if (finding === null) return { verdict: "not-examined", key: null };
  if (finding.kind !== "whole") return { verdict: finding.kind, key: null };
  const { signed, signedEntries } = finding;
  return { verdict: "whole", key: signed.findLast(({ entries }) => entries === signedEntries)?.key ?? null };
}
