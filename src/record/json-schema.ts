import { z } from "zod";
import { Sheet } from "../visit/sheet.ts";
import { Visit } from "../visit/visit.ts";
import { WrittenLine } from "./backup/line.ts";
import { LockedHead } from "./backup/locked.ts";
import { VoiceFile } from "./voice-file.ts";

/** A published schema: the name of its file and its text. */
export interface SchemaFile {
  readonly name: string;
  readonly text: string;
}

const BEYOND = "A file that fits this schema can still be wrong where JSON Schema has no words for it";

/** The formats that are read and written, as JSON Schema 2020-12, generated from the types that the program itself uses. */
export function schemaFiles(): readonly SchemaFile[] {
  return [
    file("visit-1", Visit, {
      title: "Burnerside visit bundle, version 1",
      description: `One stretch of work at one appliance: a head and an append-only list of entries. ${BEYOND}: seq without gaps, ids given once, corrections that point at an earlier entry, values in a unit and inside the hard bounds of their quantity, no field given twice.`,
    }),
    file("sheet-1", Sheet, {
      title: "Burnerside limits sheet, version 1",
      description: `A maker's limits for one appliance, typed in from the maker's instructions, with their source. A missing limit means that no limit is known, never that all is well. ${BEYOND}: min not above max, limits inside the hard bounds of their quantity, no field given twice.`,
    }),
    file("voice-1", VoiceFile, {
      title: "Burnerside own voice, version 1",
      description: `What was learned of one person's voice: the last two layers of the key-word model ("spotter") and, where it learned of confirmed phrases, the last one of the phone model ("phones"), as 32-bit floats, little-endian, in base64; kernels input by input. "base" is the SHA-256 of the weights of the model that they belong to (base64url). No recordings are in it. ${BEYOND}: weights that are finite and from -1000 to 1000, no more takes right than were held back, no field given twice.`,
    }),
    file("backup-line-1", WrittenLine, {
      title: "Burnerside backup, version 1: one of its lines",
      description: `A backup is JSON Lines, as a rule packed with gzip: the line of kind head first, that of kind end last, a clip behind its visit. "sha256" stands last in each line and is over the line's UTF-8 without it (and without the comma before it), in base64url without padding. ${BEYOND}: the order of lines, the digests, sound bundles and sheets, no field given twice.`,
    }),
    file("backup-locked-1", LockedHead, {
      title: "Burnerside backup, locked, version 1: its first line",
      description:
        "What follows the newline of this line are pieces of AES-GCM, each of `piece` bytes and a tag of 16; the last may be shorter. Key: PBKDF2 over the passphrase in NFKC as UTF-8. Nonce: prefix (7 bytes), number of the piece from 0 (4 bytes, big-endian), 1 for the last piece else 0 (1 byte). Additional data: this line without its newline. What is decrypted is a backup packed with gzip.",
    }),
  ];
}

function file(name: string, type: z.ZodType, about: { title: string; description: string }): SchemaFile {
  // As it may come in: what is filled in where it is missing need not be there.
  const { $schema, ...rest } = z.toJSONSchema(type, {
    target: "draft-2020-12",
    io: "input",
    // No format of JSON Schema: its contentEncoding says it.
    override: ({ jsonSchema }) => {
      if (jsonSchema.format === "base64") delete jsonSchema.format;
    },
  });
  const schema = { $schema, $id: `urn:burnerside:schema:${name}`, ...about, ...rest };
  return { name: `${name}.schema.json`, text: `${JSON.stringify(schema, null, 2)}\n` };
}
