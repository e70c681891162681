import { loadPrinter } from "./printer.ts";
import { Records, type RecordsWorld } from "./records.ts";

/** Records, loaded with the first that is opened. */
export function makeRecords(world: Omit<RecordsWorld, "printer">): Records {
  return new Records({ ...world, printer: loadPrinter });
}
