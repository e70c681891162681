import { z } from "zod";

/** One line of text as typed: no control characters, at most so many UTF-16 units; "" where nothing is known. */
const line = (most: number) =>
  z
    .string()
    .max(most)
    .regex(/^\P{Cc}*$/u, "expected one line of text");

/** The analyser that measured, as its plate and its certificate have it. */
export const Instrument = z.strictObject({
  name: line(80),
  serial: line(40),
  /** Day of the last calibration, YYYY-MM-DD; null where not known. */
  calibratedOn: z.iso.date().nullable(),
});
export type Instrument = z.infer<typeof Instrument>;

/** What a record needs beside what was measured. Typed in, at the start or afterwards. */
export const Details = z.strictObject({
  /** What the office knows the appliance by: its serial or plant number. */
  appliance: line(80),
  place: line(120),
  technician: line(80),
  /** Number of his licence or registration; this and the next are missing in what was written before they were asked for. */
  licence: line(80).default(""),
  firm: line(80).default(""),
  instrument: Instrument.nullable(),
});
export type Details = z.infer<typeof Details>;

export const NO_DETAILS: Details = {
  appliance: "",
  place: "",
  technician: "",
  licence: "",
  firm: "",
  instrument: null,
};
