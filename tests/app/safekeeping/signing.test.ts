import "fake-indexeddb/auto";
import Dexie from "dexie";
import { beforeEach, describe, expect, test } from "vitest";
import { LINKING } from "../../../src/app/linking.ts";
import { READERS } from "../../../src/app/readers.ts";
import { CRYPTOGRAPHY } from "../../../src/app/safekeeping/cryptography.ts";
import { type Cryptography, Signing } from "../../../src/app/safekeeping/signing.ts";
import { openNotebook } from "../../../src/device/notebook/notebook.ts";
import type { Entry, EntryBody } from "../../../src/visit/entry.ts";
import { Visit } from "../../../src/visit/visit.ts";
import { VISIT } from "../../record/visit.ts";
import { signedVisit } from "../../support/cryptography.ts";

/** The database of the test that runs. */
let name = "";
let tests = 0;
beforeEach(() => {
  tests += 1;
  name = `notebook-${tests}`;
});

const AT = "2026-11-26T10:00:00.000Z";

/** A notebook, and what signs its visits. */
async function begin(cryptography: Cryptography | null = CRYPTOGRAPHY, linking = LINKING) {
  const notebook = await openNotebook(READERS, linking, name);
  const signing = new Signing(
    { notebook, cryptography: async () => cryptography, now: () => AT, breathe: async () => {} },
    String,
  );
  return { notebook, signing };
}

function entry(seq: number, body: EntryBody): Entry {
  const text = { phrase: "as said", said: "as said" };
  return { id: `e${seq}`, seq, at: AT, engine: "typed", ...text, confidence: 1, body };
}

const finished = (seq: number) => entry(seq, { kind: "mark", mark: "finished" });
const note = (seq: number) => entry(seq, { kind: "note", text: "a note" });

/** Changes a row of the database past the app. */
async function overwrite(seq: number, change: (stored: Entry) => Entry): Promise<void> {
  const raw = await new Dexie(name).open();
  const row = await raw.table("entries").get([VISIT.head.id, seq]);
  await raw.table("entries").put({ ...row, entry: change(row.entry) });
  raw.close();
}

describe("a visit of this device", () => {
  test("is unsigned until it is finished, then signed once, and again where it went on", async () => {
    const { notebook, signing } = await begin();
    await notebook.addVisit(VISIT, "here");
    expect(await signing.handOver("v1")).toMatchObject({ finding: { kind: "unsigned", linked: true } });
    await notebook.append("v1", [finished(4)]);
    const first = await signing.handOver("v1");
    expect(first).toMatchObject({ finding: { kind: "whole", signedEntries: 5, takenIn: 0 }, trouble: null });
    expect((await signing.handOver("v1")).visit).toEqual(first.visit);
    await notebook.append("v1", [note(5), finished(6)]);
    expect((await signing.handOver("v1")).finding).toMatchObject({
      kind: "whole",
      signed: [{ entries: 5 }, { entries: 7 }],
    });
  });

  test("is signed once by two who hand it over at a time", async () => {
    const { notebook, signing } = await begin();
    await notebook.addVisit({ ...VISIT, entries: [...VISIT.entries, finished(4)] }, "here");
    const [, second] = await Promise.all([signing.handOver("v1"), signing.handOver("v1")]);
    expect(second.visit.integrity?.signatures).toHaveLength(1);
  });

  test("an entry that was changed on the disk is named, and the visit is never signed", async () => {
    const { notebook, signing } = await begin();
    await notebook.addVisit(VISIT, "here");
    await overwrite(1, (stored) => ({ ...stored, said: "CO four" }));
    await notebook.append("v1", [finished(4)]);
    const { finding, visit } = await signing.handOver("v1");
    expect(finding).toEqual({ kind: "altered", misfits: [{ kind: "entry", seq: 1 }] });
    expect(visit.integrity?.signatures).toEqual([]);
  });

  test("one from before logs were linked is linked now, and says so", async () => {
    const { notebook } = await begin(CRYPTOGRAPHY, null);
    await notebook.addVisit(VISIT, "here");
    const now = await begin();
    await now.notebook.append("v1", [finished(4)]);
    expect((await now.signing.handOver("v1")).finding).toMatchObject({
      kind: "whole",
      takenIn: 4,
      signedEntries: 5,
    });
  });
});

describe("a visit from a file", () => {
  const bring = async (visit: Visit) => {
    const { notebook, signing } = await begin();
    await notebook.addVisit(visit, "file");
    return { notebook, signing };
  };

  test("unsigned, and finished here: the signature says what this device did not see", async () => {
    const { notebook, signing } = await bring(VISIT);
    await notebook.append("v1", [finished(4)]);
    expect((await signing.handOver("v1")).finding).toMatchObject({ kind: "whole", takenIn: 4 });
  });

  test("signed elsewhere and gone on with here: both signatures stand", async () => {
    const key = await CRYPTOGRAPHY.makeKey();
    const { notebook, signing } = await bring(await signedVisit(VISIT, { key, entries: 4 }));
    await notebook.append("v1", [finished(4)]);
    expect((await signing.handOver("v1")).finding).toMatchObject({
      kind: "whole",
      signed: [
        { key: key.thumbprint, entries: 4 },
        { key: await signing.thumbprint(), entries: 5 },
      ],
      takenIn: 0,
    });
  });

  test("with as many signatures as can be read again: no more is added, and that is told", async () => {
    const signed = await signedVisit(VISIT, { key: await CRYPTOGRAPHY.makeKey(), entries: 4 });
    const [first = ""] = signed.integrity.signatures;
    const signatures = Array.from({ length: 1000 }, () => first);
    const { notebook, signing } = await bring({ ...signed, integrity: { ...signed.integrity, signatures } });
    await notebook.append("v1", [finished(4)]);
    const { visit, trouble } = await signing.handOver("v1");
    expect([Visit.safeParse(visit).success, trouble]).toEqual([true, expect.stringContaining("1000")]);
  });

  test("altered before it came: it stays so, whatever is added here", async () => {
    const signed = await signedVisit(VISIT, { key: await CRYPTOGRAPHY.makeKey(), entries: 4 });
    const entries = signed.entries.map((one) => (one.seq === 2 ? { ...one, said: "x" } : one));
    const { notebook, signing } = await bring({ ...signed, entries });
    await notebook.append("v1", [finished(4)]);
    const { finding, visit } = await signing.handOver("v1");
    expect(finding).toEqual({ kind: "altered", misfits: [{ kind: "entry", seq: 2 }] });
    expect(visit.integrity?.signatures).toEqual(signed.integrity.signatures);
  });
});

test("what has signatures is not called unsigned where they cannot be checked", async () => {
  const signed = await signedVisit(VISIT, { key: await CRYPTOGRAPHY.makeKey(), entries: 4 });
  const { signing } = await begin(null, null);
  expect(await signing.examine(signed)).toMatchObject({
    finding: null,
    trouble: expect.stringContaining("plain http"),
  });
  expect(await signing.examine(VISIT)).toMatchObject({ finding: { kind: "unsigned" }, trouble: null });
});

describe("where it cannot be signed the visit is handed over all the same", () => {
  test("a platform without cryptography", async () => {
    const { notebook, signing } = await begin(null, null);
    await notebook.addVisit({ ...VISIT, entries: [...VISIT.entries, finished(4)] }, "here");
    const { visit, finding, trouble } = await signing.handOver("v1");
    expect([visit.integrity, finding?.kind]).toEqual([undefined, "unsigned"]);
    expect(trouble).toMatch(/plain http/);
    expect(await signing.thumbprint()).toBeNull();
  });

  test("a platform that refuses", async () => {
    const refuse = async () => {
      throw new Error("no keys in a private window");
    };
    const { notebook, signing } = await begin({ ...CRYPTOGRAPHY, makeKey: refuse });
    await notebook.addVisit({ ...VISIT, entries: [...VISIT.entries, finished(4)] }, "here");
    expect(await signing.handOver("v1")).toMatchObject({
      finding: { kind: "unsigned", linked: true },
      trouble: "Error: no keys in a private window",
    });
  });
});

test("the key is one, and the private half does not leave the store", async () => {
  const { notebook, signing } = await begin();
  const [first, second] = await Promise.all([
    notebook.deviceKey(CRYPTOGRAPHY.makeKey),
    notebook.deviceKey(CRYPTOGRAPHY.makeKey),
  ]);
  expect(second.thumbprint).toBe(first.thumbprint);
  expect(first.privateKey.extractable).toBe(false);
  expect(await signing.thumbprint()).toBe(first.thumbprint);
});
