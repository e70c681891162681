import type { Talkativeness } from "../../answer/talk.ts";
import type { Amending, Reply, Turn } from "../../answer/turn.ts";
import type { Trouble } from "../../device/notebook/trouble.ts";
import type { Phrase } from "../../meaning/heard.ts";
import type { Amendment } from "../../visit/by-hand.ts";
import type { Entry } from "../../visit/entry.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Understand } from "./heard-phrase.ts";

/** What a running visit needs of the world. */
export interface SessionWorld {
  readonly take: (
    visit: Visit,
    phrase: Phrase,
    now: string,
    talk: Talkativeness,
    asked: Turn["asked"],
  ) => Turn;
  readonly amend: (visit: Visit, amendment: Amendment, now: string, talk: Talkativeness) => Amending;
  readonly stand: (visit: Visit, now: string, talk: Talkativeness) => Reply;
  /** The stretches of a phrase that were understood where the visit stood like this. */
  readonly understand: Understand;
  /** Resolves when the entries are on the disk; rejects when nothing was stored. */
  readonly append: (visitId: string, entries: readonly Entry[]) => Promise<void>;
  /** What lies on the disk of a visit from a place on. */
  readonly entriesFrom: (visitId: string, seq: number) => Promise<readonly Entry[]>;
  /** Tells whenever another window has added to a visit, until the returned function is called. */
  readonly onAdded: (tell: (visitId: string) => void) => () => void;
  /** Stores a visit anew that is on the disk no more. Rejects where nothing was stored. */
  readonly storeAnew: (visit: Visit) => Promise<void>;
  readonly now: () => string;
  /** Milliseconds of a clock that nobody can set, from an arbitrary start. */
  readonly elapsed: () => number;
  readonly say: (text: string) => void;
  /** Keeps the sound beside the first of the stored entries that it gave. Returns at once and never throws. */
  readonly keepSound: (visitId: string, first: Entry, sound: Float32Array) => void;
  /** How much is said now. */
  readonly talk: () => Talkativeness;
  /** Never rejects. The next phrase is taken when it is done. */
  readonly effect: (effect: Reply["effect"]) => Promise<void>;
  /** Why a write failed, without a full stop. */
  readonly reason: (error: unknown) => string;
  /** What kind of failure it was. */
  readonly troubleOf: (error: unknown) => Trouble;
  /** A pause between pieces of long work. Never rejects. */
  readonly breathe: () => Promise<void>;
}

/** A phrase or a correction by hand that came in, and when. */
export type Incoming = { readonly at: string } & (
  | { readonly phrase: Phrase }
  | { readonly amendment: Amendment; readonly aloud: boolean }
);

/** Why a correction by hand cannot be, and what may have been meant; null where it was taken, or is held. */
export type Refusal = Extract<Amending, { ok: false }> | null;
