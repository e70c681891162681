/** Which key signed how far, and when by its device's clock. */
export interface Signed {
  /** Thumbprint of the public key (RFC 7638), SHA-256 in base64url. */
  readonly key: string;
  /** How many entries, from the first. */
  readonly entries: number;
  /** ISO 8601. */
  readonly at: string;
}

/** Where a log does not fit what it is checked by. */
export type Misfit =
  | { readonly kind: "head" }
  /** The entry at this place, from 0, is not the one that was linked. */
  | { readonly kind: "entry"; readonly seq: number }
  | { readonly kind: "length"; readonly links: number; readonly entries: number }
  /** All links fit, but not what was signed: something from one place up to another, from 0, was changed, and the links with it. */
  | { readonly kind: "between"; readonly from: number; readonly to: number; readonly signed: Signed }
  /** Fewer entries than were signed: the end is missing. */
  | { readonly kind: "cut"; readonly entries: number; readonly signed: Signed }
  /** The signature with this number, from 0, does not verify, or is of another visit. */
  | {
      readonly kind: "signature";
      readonly number: number;
      readonly why: "not-valid" | "no-statement" | "other-visit";
    };

/** What can be said of a log. */
export type Finding =
  | {
      /** `in-part`: all fits, but entries follow the last signature. Anybody can add those, and a correction among them changes what stands. */
      readonly kind: "whole" | "in-part";
      /** In the order in which they were made; never empty. */
      readonly signed: readonly Signed[];
      /** Up to which entry it is signed, and how many there are. */
      readonly signedEntries: number;
      readonly entries: number;
      /** How many of the signed entries no device that signed saw being made. */
      readonly takenIn: number;
    }
  | { readonly kind: "altered"; readonly misfits: readonly Misfit[] }
  /** Nobody signed it; `linked` where its links fit, which shows slips and not forgery. */
  | { readonly kind: "unsigned"; readonly linked: boolean };

/** A log that nobody linked: nothing can be said of it. */
export const UNLINKED: Finding = { kind: "unsigned", linked: false };

/** What came of examining a log, and of signing it. */
export interface Examined {
  /** Null where it could not be examined. */
  readonly finding: Finding | null;
  /** Why it could not be examined, or signed, without a full stop; null where that is no question. */
  readonly trouble: string | null;
}
