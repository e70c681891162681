import { z } from "zod";
import { Sha256Text } from "../../visit/integrity.ts";
import { BACKUP_LIMITS } from "./limits.ts";

export const BACKUP_FORMAT = "burnerside-backup/1";

/** Checked by a reader of its own, with all that types cannot say: its schema is published beside this one. */
const bundle = z.unknown().meta({ description: "A visit bundle, as in visit-1.schema.json." });
const instant = z.iso.datetime({ offset: true });
const count = z.int().min(0);
const id = z.string().min(1).max(1000);

/** How many there are of each kind. */
export const Counts = z.strictObject({
  visits: count,
  sheets: count,
  clips: count,
  officeVisits: count,
  officeDone: count,
});
export type Counts = z.infer<typeof Counts>;

/** The first line. */
export const Head = z.strictObject({
  kind: z.literal("head"),
  format: z.literal(BACKUP_FORMAT),
  madeAt: instant,
  /** What wrote it, with its version. */
  program: z.string().max(100),
  /** What was to be written. */
  counts: Counts,
});
export type Head = z.infer<typeof Head>;

export const SettingsLine = z.strictObject({
  kind: z.literal("settings"),
  /** As the program keeps them; what it does not know any more is passed over by the one that reads them. */
  settings: z.record(z.string().max(100), z.unknown()),
});

export const SheetLine = z.strictObject({
  kind: z.literal("sheet"),
  sheet: z.unknown().meta({ description: "A limits sheet, as in sheet-1.schema.json." }),
});

/** A visit of the technician's notebook. */
export const VisitLine = z.strictObject({ kind: z.literal("visit"), bundle });

/** The sound of an utterance; comes behind its visit. */
export const ClipLine = z.strictObject({
  kind: z.literal("clip"),
  visitId: id,
  /** The place of its entry in the visit. */
  seq: count,
  at: instant,
  type: z
    .string()
    .max(100)
    .regex(/^audio\//, "expected a kind of sound such as audio/ogg"),
  /** Who spoke: the id of a voice of the device that it was made on; left out where that was not chosen. */
  speaker: id.optional(),
  data: z.base64().max(BACKUP_LIMITS.clip),
});
export type ClipLine = z.infer<typeof ClipLine>;

/** One export of a visit that the office keeps, with the name of the file that it came from. */
export const OfficeVisitLine = z.strictObject({
  kind: z.literal("office-visit"),
  file: z.string().max(1000),
  bundle,
});

/** A follow-up that somebody in the office has marked as done. */
export const OfficeDoneLine = z.strictObject({
  kind: z.literal("office-done"),
  key: id,
  visitId: id,
  at: instant,
  by: z.string().max(1000),
});
export type OfficeDoneLine = z.infer<typeof OfficeDoneLine>;

/** The last line: what was really written. */
export const End = z.strictObject({
  kind: z.literal("end"),
  /** Of all lines before this. */
  lines: count,
  counts: Counts,
  /** What could not be read when the backup was made, and so is not in it: a sentence each. */
  missing: z.array(z.string().max(2000)).max(1000),
  /** SHA-256 of the `sha256` of all lines before this one, one behind the other. */
  all: Sha256Text,
});
export type End = z.infer<typeof End>;

/** A line without its own `sha256`, which stands last in it and is over the text of the line without it. */
export const Line = z.discriminatedUnion("kind", [
  Head,
  SettingsLine,
  SheetLine,
  VisitLine,
  ClipLine,
  OfficeVisitLine,
  OfficeDoneLine,
  End,
]);
export type Line = z.infer<typeof Line>;

/** The same as it is written. */
export const WrittenLine = z.discriminatedUnion("kind", [
  Head.extend({ sha256: Sha256Text }),
  SettingsLine.extend({ sha256: Sha256Text }),
  SheetLine.extend({ sha256: Sha256Text }),
  VisitLine.extend({ sha256: Sha256Text }),
  ClipLine.extend({ sha256: Sha256Text }),
  OfficeVisitLine.extend({ sha256: Sha256Text }),
  OfficeDoneLine.extend({ sha256: Sha256Text }),
  End.extend({ sha256: Sha256Text }),
]);

/** What stands between the first line and the last. */
export type Content = Exclude<Line, Head | End>;

export const NONE: Counts = { visits: 0, sheets: 0, clips: 0, officeVisits: 0, officeDone: 0 };

/** Which count goes up with a line; null for the others. */
export function counted(kind: Line["kind"]): keyof Counts | null {
  switch (kind) {
    case "visit":
      return "visits";
    case "sheet":
      return "sheets";
    case "clip":
      return "clips";
    case "office-visit":
      return "officeVisits";
    case "office-done":
      return "officeDone";
    case "head":
    case "settings":
    case "end":
      return null;
  }
}
