import { z } from "zod";
import { Sha256Text } from "../../visit/integrity.ts";
import { canonicalText } from "./canonical.ts";

/** What a device signs: so many entries, ending in this link, are the log of this visit as it is kept here. */
export const Statement = z.strictObject({
  format: z.literal("burnerside-statement/1"),
  visit: z.string(),
  /** How many entries, from the first. */
  entries: z.int().min(0),
  /** The link of the last of them. */
  link: Sha256Text,
  /** Entries before this place came to the device in a file, or were kept before logs were linked: it saw none of them made. */
  ownFrom: z.int().min(0),
  /** By the device's clock, ISO 8601. */
  at: z.iso.datetime({ offset: true }),
});
export type Statement = z.infer<typeof Statement>;

/** As it is signed: the payload of the signature. */
export function statementText(statement: Statement): string {
  return canonicalText(Statement.parse(statement));
}

/** Null where the payload of a signature is no statement. */
export function readStatement(text: string): Statement | null {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return null;
  }
  return Statement.safeParse(raw).data ?? null;
}
