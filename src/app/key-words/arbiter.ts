import type { KeyWordHeard } from "../../device/spotter/detect.ts";
import type { Weighed } from "./weighed.ts";

/** Between the phrase recogniser and the spotter: both hear the same, and it must count once. */
export interface Arbiter {
  /** Words of one stretch that wait for what the phrase recogniser makes of it. */
  readonly pending: readonly KeyWordHeard[];
  /** When a phrase was last taken. */
  readonly takenAt: number;
  /** Up to when a key word that counted was heard. */
  readonly countedAt: number;
  /** When the phrase recogniser last heard a voice. */
  readonly voicedAt: number;
}

export type ArbiterEvent =
  | { readonly kind: "word"; readonly heard: KeyWordHeard }
  | { readonly kind: "voice"; readonly at: number }
  /** `began`: when its sound began. `standsAlone`: whether it means the same whatever was asked. */
  | {
      readonly kind: "phrase";
      readonly weight: Weighed["weight"];
      readonly standsAlone: boolean;
      readonly began: number;
      readonly at: number;
    }
  | { readonly kind: "time"; readonly at: number };

export interface Ruling {
  readonly arbiter: Arbiter;
  /** The words that count now; empty where none do. */
  readonly counts: readonly KeyWordHeard[];
  /** Whether the phrase of this event is taken; of other events false. */
  readonly takes: boolean;
}

export const IDLE: Arbiter = {
  pending: [],
  takenAt: Number.NEGATIVE_INFINITY,
  countedAt: Number.NEGATIVE_INFINITY,
  voicedAt: Number.NEGATIVE_INFINITY,
};

/** So long the phrase recogniser is waited for after the last word, ms. */
const WAIT_MS = 1200;
/** While it hears a voice it is not done yet: so long it is waited for at most, ms. */
const MOST_WAIT_MS = 4000;
/** A voice is over that was not heard for so long, ms. */
const VOICE_MS = 300;
/** A word heard so soon after a phrase was taken is of that phrase, ms: the spotter may be the slower one. */
const SAME_MS = 800;

/** One event on. Pure. What the phrase recogniser understood goes first; never do both count. */
export function arbitrate(arbiter: Arbiter, event: ArbiterEvent): Ruling {
  const { pending } = arbiter;
  switch (event.kind) {
    case "voice":
      return none({ ...arbiter, voicedAt: event.at });
    case "word": {
      if (event.heard.at - arbiter.takenAt < SAME_MS) return none(arbiter);
      return none({ ...arbiter, pending: [...pending, event.heard] });
    }
    case "phrase": {
      const { weight, standsAlone, began, at } = event;
      if (weight !== "understood" && pending.length > 0) return counted(arbiter);
      // The key word of the same stretch has counted: what hangs on the question would be of the next one.
      if (began < arbiter.countedAt && !standsAlone) return none(arbiter);
      const takenAt = weight === "nothing" ? arbiter.takenAt : at;
      return { arbiter: { ...arbiter, pending: [], takenAt }, counts: [], takes: true };
    }
    case "time": {
      const last = pending.at(-1);
      if (!last) return none(arbiter);
      const waited = event.at - last.at;
      const isVoiced = event.at - arbiter.voicedAt < VOICE_MS;
      if (waited < WAIT_MS || (isVoiced && waited < MOST_WAIT_MS)) return none(arbiter);
      return counted(arbiter);
    }
  }
}

function none(arbiter: Arbiter): Ruling {
  return { arbiter, counts: [], takes: false };
}

function counted(arbiter: Arbiter): Ruling {
  const { pending } = arbiter;
  const countedAt = pending.at(-1)?.at ?? arbiter.countedAt;
  return { arbiter: { ...arbiter, pending: [], countedAt }, counts: pending, takes: false };
}
