import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { makeDeviceKey } from "../../src/device/signing/signatures.ts";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { signedVisit } from "./cryptography.ts";
import { upTo } from "./office.ts";

// The signed bundles of demo-data, with a key that is made for them and thrown away: npx tsx tests/support/demo-signed.ts
// Made anew they have other signatures, for every one of ECDSA is another.

export const DEMO = "demo-data/visits/otterfold-mill.visit.json";
export const SIGNED = "demo-data/visits/otterfold-mill.signed.visit.json";
export const ALTERED = "demo-data/awkward/altered.json";

/** Entries of the altered bundle, and the one that somebody made better than it was. */
export const ALTERED_ENTRIES = 6;
export const ALTERED_SEQ = 3;

export function bundleIn(path: string): Visit {
  const read = importVisit(readFileSync(path, "utf8"));
  if (!read.ok) throw new Error(`${path}: ${JSON.stringify(read.problems)}`);
  return read.visit;
}

async function write(): Promise<void> {
  const key = await makeDeviceKey();
  const visit = bundleIn(DEMO);
  writeFileSync(SIGNED, exportVisit(await signedVisit(visit, { key, entries: visit.entries.length })));
  const short = upTo(
    { ...visit, head: { ...visit.head, id: "altered-1", title: "Altered (invented)", sheet: null } },
    ALTERED_ENTRIES,
  );
  const whole = await signedVisit(short, { key, entries: ALTERED_ENTRIES });
  const entries = whole.entries.map((entry) =>
    entry.seq === ALTERED_SEQ && entry.body.kind === "reading"
      ? { ...entry, body: { ...entry.body, value: 9.1 } }
      : entry,
  );
  writeFileSync(ALTERED, exportVisit({ ...whole, entries }));
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) await write();
