import { z } from "zod";
import { Fuel, UnitSystem } from "../measure/firing.ts";
import { Entry } from "./entry.ts";
import { Integrity } from "./integrity.ts";
import { Sheet } from "./sheet.ts";

/** What is fixed when a visit starts. The sheet is copied in, so that a later edit of it changes no old verdict. */
export const VisitHead = z.strictObject({
  /** Stands in addresses, where half a surrogate pair cannot. */
  id: z
    .string()
    .min(1)
    .max(200)
    .refine((id) => id.isWellFormed(), "expected text of whole characters"),
  title: z.string().max(200),
  startedAt: z.iso.datetime({ offset: true }),
  /** IANA zone of the place, e.g. "Europe/Vienna"; null where unknown. */
  zone: z.string().nullable(),
  fuel: Fuel,
  units: UnitSystem,
  sheet: Sheet.nullable(),
});
export type VisitHead = z.infer<typeof VisitHead>;

/** One stretch of work at one appliance: a head and an append-only list of entries. The visit bundle as exported. */
export const Visit = z.strictObject({
  format: z.literal("burnerside-visit/1"),
  head: VisitHead,
  entries: z.array(Entry),
  /** Of just these entries; left out where the log was never linked, and while a visit is worked on. */
  integrity: Integrity.optional(),
});
export type Visit = z.infer<typeof Visit>;
