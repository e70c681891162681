import type { Fuel } from "../../measure/firing.ts";
import type { Adjuster, FuelLimits, Sheet } from "../../visit/sheet.ts";

/** Something about one field: its place in the sheet ("fuels.natural-gas.high.co2.min"), and one sentence. */
export interface FieldNote {
  readonly path: string;
  readonly message: string;
  /** Nothing is wrong yet: nothing is there. */
  readonly isEmpty: boolean;
}

/** The parts of a sheet that can be read already; null where one cannot. */
export interface SheetParts {
  readonly source: Sheet["source"];
  readonly fuels: Readonly<Partial<Record<Fuel, FuelLimits | null>>>;
  readonly adjusters: { readonly high: Adjuster | null; readonly low: Adjuster | null };
  readonly settleSeconds: { readonly high: Seconds; readonly low: Seconds };
  readonly closing: Sheet["closing"];
}

/** Null where nothing was filled in. */
export type Seconds = number | "unreadable" | null;

/** What is known beside the form: titles of the other sheets, and the day as YYYY-MM-DD. */
export interface SheetSurroundings {
  readonly otherTitles: readonly string[];
  readonly today: string;
}
