import type { Unsure } from "../meaning/item.ts";
import type { Check, Condition, Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { Details } from "./details.ts";
import type { ItemBody, Mark, Reading } from "./entry.ts";
import type { Task } from "./task.ts";

import type { VisitHead } from "./visit.ts";

export type { ItemBody };

/** An item as it now stands. Nothing is ever taken out of the list: what was struck says by which entry. */
export interface LoggedItem {
  readonly id: string;
  readonly seq: number;
  readonly at: string;
  readonly said: string;
  readonly confidence: number;
  readonly body: ItemBody;
  /** What it was before each replacement, oldest first. */
  readonly history: readonly ItemBody[];
  /** Id of the strike, or null while it stands. */
  readonly struckBy: string | null;
}

export interface StandingReading {
  readonly id: string;
  readonly seq: number;
  /** When it was measured: a later replacement mends the value, not the time. */
  readonly at: string;
  readonly said: string;
  readonly confidence: number;
  readonly reading: Reading;
  readonly history: readonly Reading[];
}

export interface StandingAdjustment {
  readonly id: string;
  readonly seq: number;
  readonly at: string;
  readonly adjuster: Firing;
  /** Signed turns, clockwise positive. */
  readonly turns: number;
  /** The burner's firing when the screw was turned, null where it was not known. */
  readonly firing: Firing | null;
}

export interface StandingMark {
  readonly id: string;
  readonly seq: number;
  readonly at: string;
  readonly mark: Mark;
}

/** The firing mode that the burner is in, and since when. */
export interface CurrentFiring {
  readonly firing: Firing;
  readonly since: string;
}

/** Readings of one quantity in one firing (and condition), by when they were taken. */
export interface PhaseRow {
  readonly quantity: QuantityId;
  readonly firing: Firing | null;
  readonly condition: Condition | null;
  /** What stood before the first adjustment; null where nothing that could move with it was read before that. */
  readonly asFound: StandingReading | null;
  /** All that are neither as found nor as left, oldest first: those before what was found too. */
  readonly trials: readonly StandingReading[];
  /** What stands at the end; null where nothing was read after the last adjustment that could move it. */
  readonly asLeft: StandingReading | null;
}

/** One phrase of a visit: its entries share both fields. */
export interface Utterance {
  readonly at: string;
  /** The whole phrase as heard. */
  readonly phrase: string;
}

/** A question that was asked aloud and waits for yes, no, or what is missing, with the utterance that raised it. */
export interface OpenQuestion extends Utterance {
  /** Id of the unsure entry that opened it. */
  readonly id: string;
  /** With a candidate, or with a question for what is missing. */
  readonly unsure: Unsure;
}

/** How something that was not understood was settled later, and by which entry. */
export interface Settled {
  /** Id of the entry. */
  readonly by: string;
  /** "Yes" to its question; "no", whatever was said instead; the same thing said again; told by hand what it was. */
  readonly how: "accepted" | "dropped" | "said-again" | "told";
}

/** Something that was heard and not understood well enough to log. */
export interface UnsureThing extends Utterance {
  readonly id: string;
  readonly seq: number;
  readonly said: string;
  /** How sure the ear was, 0 to 1. */
  readonly confidence: number;
  readonly unsure: Unsure;
  /** Null while it is open. */
  readonly settled: Settled | null;
}

/** Who found the visit right as it stands, and when (ISO 8601). */
export interface Review {
  /** Id of its entry. */
  readonly id: string;
  readonly by: string;
  readonly at: string;
}

/** An entry with an earlier time than the one before it: the device's clock was set back between. */
export interface SetBack {
  readonly seq: number;
  readonly at: string;
  /** The time of the entry before. */
  readonly before: string;
}

/** All that is known of a visit: plain data, a pure fold of the entries. */
export interface VisitState {
  readonly head: VisitHead;
  readonly nextSeq: number;
  /** The time of the last entry; null before the first. */
  readonly lastAt: string | null;
  /** Where times run backwards, in order. What is in order is the places of the entries, never their times. */
  readonly setBacks: readonly SetBack[];
  /** Every item that was ever logged, struck ones too, in order. */
  readonly items: readonly LoggedItem[];
  /** Everything that was heard and not understood, settled or not, in order. */
  readonly unsure: readonly UnsureThing[];
  /** The review, null before there was one and after anything was logged since. */
  readonly reviewed: Review | null;
  /** Where, with what and by whom, as typed in last. */
  readonly details: Details;
  /** What notes mean, by the note's id, where a reviewer has said so; for others their words have to do. */
  readonly tasks: Readonly<Record<string, readonly Task[]>>;
  /** Questions not yet answered, the last asked last. */
  readonly questions: readonly OpenQuestion[];
  /** The utterance of the last entry, where it answered a question: what it logs belongs to the answer. Else null. */
  readonly answered: Utterance | null;
  readonly firing: CurrentFiring | null;
  /** Standing readings, in order. */
  readonly readings: readonly StandingReading[];
  readonly adjustments: readonly StandingAdjustment[];
  readonly lastTouch: Readonly<Record<Firing, StandingAdjustment | null>>;
  /** The last word on each closing check. */
  readonly checks: Readonly<Partial<Record<Check, boolean>>>;
  readonly marks: readonly StandingMark[];
  /** Declared finished, and no work on the boiler since. */
  readonly finished: boolean;
}
