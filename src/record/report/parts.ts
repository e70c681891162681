import type { Verdict } from "../../judge/judgement.ts";
import type { UnitSystem } from "../../measure/firing.ts";
import type { Trace } from "../trace.ts";

/** A text of a record, with its verdict where it has one, and what has to be said beside it ("" where nothing has). */
export interface Cell {
  readonly text: string;
  readonly verdict: Verdict["verdict"] | null;
  readonly note: string;
}

/** One thing that is known, or plainly not known. */
export interface Fact extends Cell {
  readonly name: string;
}

/** A piece of a section. All texts are one line that moves nothing around it. */
export type Block =
  | {
      readonly kind: "facts";
      /** Of what they are; "" where the section's name says it. */
      readonly name: string;
      readonly rows: readonly Fact[];
    }
  | {
      readonly kind: "table";
      readonly columns: readonly string[];
      /** The first cell of a row is its name. */
      readonly rows: readonly (readonly Cell[])[];
    }
  | { readonly kind: "list"; readonly name: string; readonly items: readonly string[] }
  | { readonly kind: "text"; readonly text: string }
  /** Lines to write on, on paper: who signs. */
  | { readonly kind: "signatures"; readonly names: readonly string[] }
  | { readonly kind: "trace"; readonly trace: Trace; readonly zone: string | null };

/** The sections in order: what was found and left first, what follows from it after. */
export const SECTION_IDS = [
  "appliance",
  "visit",
  "instrument",
  "review",
  "open",
  "gas-pressure",
  "readings",
  "turns",
  "warnings",
  "closing",
  "changed",
  "notes",
  "derived",
  "trace",
  "log",
  "signatures",
  "cautions",
] as const;
export type SectionId = (typeof SECTION_IDS)[number];

export interface Section {
  readonly id: SectionId;
  readonly name: string;
  readonly blocks: readonly Block[];
}

/** A visit record as it is shown, printed and made a PDF file: plain data, nothing left to work out. */
export interface Report {
  readonly heading: string;
  /** What the visit is called. */
  readonly name: string;
  /** How it stands, in one sentence. */
  readonly stand: string;
  /** What has to be known before anything else is read, in one sentence; "" where there is nothing. */
  readonly notice: string;
  readonly units: UnitSystem;
  readonly sections: readonly Section[];
  /** The program that made it, and its version. */
  readonly program: string;
  /** Of which visit it is, when it was made, what it is and what it is not. */
  readonly foot: readonly string[];
}

export function cell(text: string, note = "", verdict: Cell["verdict"] = null): Cell {
  return { text, verdict, note };
}

export function fact(name: string, text: string, note = "", verdict: Cell["verdict"] = null): Fact {
  return { name, text, verdict, note };
}
