/**
 * What became of a visit of a backup: it was not here; it was here, the same; the backup went on from it; what is here goes on from
 * the backup; the two part, or somebody altered the one in the backup only, and what is here stays; what is here cannot be read, and
 * stays.
 */
export type VisitFate =
  | "added"
  | "same"
  | "extended"
  | "longerHere"
  | "parted"
  | "alteredThere"
  | "unreadable";

/** Something that a person should know of one visit, or of one sheet. */
export type ToldOf =
  | {
      readonly kind: "parted" | "alteredThere" | "unreadable" | "altered";
      readonly title: string;
      /** ISO 8601, and the zone of the place. */
      readonly startedAt: string;
      readonly zone: string | null;
    }
  | { readonly kind: "other-sheet"; readonly title: string };

/** What was restored so far, and what was not. */
export interface Restored {
  readonly visits: Readonly<Record<VisitFate, number>>;
  /** `other`: here under the same id, with other content, which stays. */
  readonly sheets: { readonly added: number; readonly same: number; readonly other: number };
  /** `notKept`: too old, or this device keeps no sound; `withoutVisit`: its visit was not restored. */
  readonly clips: {
    readonly added: number;
    readonly same: number;
    readonly notKept: number;
    readonly withoutVisit: number;
  };
  readonly office: { readonly added: number; readonly same: number; readonly refused: number };
  readonly officeDone: number;
  /** Null where the backup has none. */
  readonly settings: "taken" | "left" | "unreadable" | null;
  readonly told: readonly ToldOf[];
  /** Why it ended before its end, without a full stop; null where it did not. */
  readonly stopped: string | null;
}

export const NOTHING_RESTORED: Restored = {
  visits: { added: 0, same: 0, extended: 0, longerHere: 0, parted: 0, alteredThere: 0, unreadable: 0 },
  sheets: { added: 0, same: 0, other: 0 },
  clips: { added: 0, same: 0, notKept: 0, withoutVisit: 0 },
  office: { added: 0, same: 0, refused: 0 },
  officeDone: 0,
  settings: null,
  told: [],
  stopped: null,
};
