import { createHash } from "node:crypto";
import type { DeviceKey } from "../../src/device/signing/device-key.ts";
import { signText, verifySignature } from "../../src/device/signing/signatures.ts";
import { linksOf } from "../../src/record/integrity/chain.ts";
import type { Examiner } from "../../src/record/integrity/examine.ts";
import { statementText } from "../../src/record/integrity/statement.ts";
import type { Visit } from "../../src/visit/visit.ts";

/** SHA-256 by Node, beside that of Web Crypto. */
export const nodeSha256 = (text: string): string => createHash("sha256").update(text).digest("base64url");

/** What logs are examined by. */
export const EXAMINER: Examiner = { sha256: nodeSha256, verify: verifySignature };

/** The visit with its links, and signed up to so many of its entries by each of the keys. */
export async function signedVisit(
  visit: Visit,
  ...signed: readonly { key: DeviceKey; entries: number; ownFrom?: number; of?: string }[]
): Promise<Visit & { readonly integrity: NonNullable<Visit["integrity"]> }> {
  const links = await linksOf(visit, nodeSha256);
  const signatures: string[] = [];
  for (const { key, entries, ownFrom = 0, of = visit.head.id } of signed) {
    const link = links[entries] ?? "";
    const at = "2026-11-26T10:00:00.000Z";
    const text = statementText({ format: "burnerside-statement/1", visit: of, entries, link, ownFrom, at });
    signatures.push(await signText(text, key));
  }
  return { ...visit, integrity: { links, signatures } };
}
