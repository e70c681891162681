import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import type { DeviceKey } from "../../../src/device/signing/device-key.ts";
import { makeDeviceKey, signText } from "../../../src/device/signing/signatures.ts";
import { exportVisit, importVisit } from "../../../src/record/bundle.ts";
import { linksOf } from "../../../src/record/integrity/chain.ts";
import { examine } from "../../../src/record/integrity/examine.ts";
import type { Finding } from "../../../src/record/integrity/finding.ts";
import type { Entry } from "../../../src/visit/entry.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { EXAMINER, nodeSha256, signedVisit } from "../../support/cryptography.ts";
import { VISIT } from "../visit.ts";

let key: DeviceKey;
let other: DeviceKey;
beforeAll(async () => {
  [key, other] = await Promise.all([makeDeviceKey(), makeDeviceKey()]);
});

const AT = "2026-11-26T10:00:00.000Z";
const by = (whose: DeviceKey, entries: number) => ({ key: whose.thumbprint, entries, at: AT });

type SignedVisit = Awaited<ReturnType<typeof signedVisit>>;

/** The visit signed at its end, then changed; what is found. */
async function foundAfter(change: (visit: SignedVisit) => Visit | Promise<Visit>): Promise<Finding> {
  return examine(await change(await signedVisit(VISIT, { key, entries: 4 })), EXAMINER);
}

/** With another text in the entry at a place. */
function said(visit: SignedVisit, seq: number, words: string): SignedVisit {
  return { ...visit, entries: visit.entries.map((one) => (one.seq === seq ? { ...one, said: words } : one)) };
}

/** With the links made anew, as one does who knows how. */
async function relinked(visit: SignedVisit): Promise<SignedVisit> {
  return { ...visit, integrity: { ...visit.integrity, links: await linksOf(visit, nodeSha256) } };
}

describe("whole", () => {
  test("signed to its end", async () => {
    expect(await foundAfter((visit) => visit)).toEqual({
      kind: "whole",
      signed: [by(key, 4)],
      signedEntries: 4,
      entries: 4,
      takenIn: 0,
    });
  });

  test("gone on with after it was signed", async () => {
    const visit = await signedVisit(VISIT, { key, entries: 3 });
    expect(await examine(visit, EXAMINER)).toMatchObject({ kind: "in-part", signedEntries: 3, entries: 4 });
  });

  test("a correction put behind what was signed, its link made as anybody can: not whole", async () => {
    const last = VISIT.entries[0];
    if (!last) throw new Error("Expected a visit with entries.");
    const forged: Entry = { ...last, id: "forged", seq: 4, body: { kind: "strike", target: last.id } };
    const found = await foundAfter((visit) => relinked({ ...visit, entries: [...visit.entries, forged] }));
    expect(found).toMatchObject({ kind: "in-part", signedEntries: 4, entries: 5 });
  });

  test("signed by two devices, one after the other", async () => {
    const visit = await signedVisit(VISIT, { key, entries: 2 }, { key: other, entries: 4, ownFrom: 2 });
    expect(await examine(visit, EXAMINER)).toMatchObject({
      kind: "whole",
      signed: [by(key, 2), by(other, 4)],
      takenIn: 0,
    });
  });

  test.each([
    ["all came in a file", [{ entries: 4, ownFrom: 4 }], 4],
    ["the first two did", [{ entries: 4, ownFrom: 2 }], 2],
    ["the first signed one of them", [{ entries: 1 }, { entries: 4, ownFrom: 2 }], 1],
    [
      "a later signature of the same",
      [
        { entries: 3, ownFrom: 2 },
        { entries: 4, ownFrom: 2 },
      ],
      2,
    ],
  ])("%s: nobody saw them made", async (_, signatures, takenIn) => {
    const visit = await signedVisit(VISIT, ...signatures.map((one) => ({ key, ...one })));
    expect(await examine(visit, EXAMINER)).toMatchObject({ kind: "whole", takenIn });
  });

  test("through a file and back", async () => {
    const read = importVisit(exportVisit(await signedVisit(VISIT, { key, entries: 4 })));
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(await examine(read.visit, EXAMINER)).toMatchObject({ kind: "whole", signedEntries: 4 });
  });
});

describe("altered", () => {
  const cases: [string, (visit: SignedVisit) => Visit | Promise<Visit>, unknown[]][] = [
    ["one entry", (visit) => said(visit, 1, "CO four"), [{ kind: "entry", seq: 1 }]],
    [
      "two entries",
      (visit) => said(said(visit, 0, "x"), 3, "y"),
      [
        { kind: "entry", seq: 0 },
        { kind: "entry", seq: 3 },
      ],
    ],
    ["the head", (visit) => ({ ...visit, head: { ...visit.head, title: "Other" } }), [{ kind: "head" }]],
    [
      "the limits that it was judged by",
      (visit) => ({ ...visit, head: { ...visit.head, sheet: null } }),
      [{ kind: "head" }],
    ],
    [
      "the last entry taken away",
      (visit) => ({ ...visit, entries: visit.entries.slice(0, 3) }),
      [{ kind: "length", links: 4, entries: 3 }],
    ],
    [
      "the last entry and its link taken away",
      (visit) => relinked({ ...visit, entries: visit.entries.slice(0, 3) }),
      [{ kind: "cut", entries: 3, signed: { entries: 4 } }],
    ],
    [
      "one entry, and all links made anew",
      (visit) => relinked(said(visit, 1, "CO four")),
      [{ kind: "between", from: 0, to: 4, signed: { entries: 4 } }],
    ],
    [
      "a signature that is none",
      (visit) => ({ ...visit, integrity: { ...visit.integrity, signatures: ["a.b.c"] } }),
      [{ kind: "signature", number: 0, why: "not-valid" }],
    ],
    [
      "a signature with another payload",
      (visit) => {
        const [head, , signature] = (visit.integrity.signatures[0] ?? "").split(".");
        return { ...visit, integrity: { ...visit.integrity, signatures: [`${head}.e30.${signature}`] } };
      },
      [{ kind: "signature", number: 0, why: "not-valid" }],
    ],
    [
      "a signature of something else",
      async (visit) => ({
        ...visit,
        integrity: { ...visit.integrity, signatures: [await signText("{}", key)] },
      }),
      [{ kind: "signature", number: 0, why: "no-statement" }],
    ],
    [
      "the signature of another visit",
      () => signedVisit(VISIT, { key, entries: 4, of: "v2" }),
      [{ kind: "signature", number: 0, why: "other-visit" }],
    ],
  ];
  test.each(cases)("%s", async (_, change, misfits) => {
    expect(await foundAfter(change)).toMatchObject({ kind: "altered", misfits });
  });

  test("an earlier signature narrows where it was", async () => {
    const visit = await signedVisit(VISIT, { key, entries: 2 }, { key, entries: 4 });
    expect(await examine(await relinked(said(visit, 3, "x")), EXAMINER)).toEqual({
      kind: "altered",
      misfits: [{ kind: "between", from: 2, to: 4, signed: by(key, 4) }],
    });
  });
});

describe("unsigned", () => {
  test("without links", async () => {
    expect(await examine(VISIT, EXAMINER)).toEqual({ kind: "unsigned", linked: false });
  });
  test("with links", async () => {
    expect(await examine(await signedVisit(VISIT), EXAMINER)).toEqual({ kind: "unsigned", linked: true });
  });
  test("its signature taken away", async () => {
    const found = await foundAfter((visit) => ({
      ...visit,
      integrity: { ...visit.integrity, signatures: [] },
    }));
    expect(found).toEqual({ kind: "unsigned", linked: true });
  });
});

test("whatever is changed of whichever entry is found at that entry", async () => {
  const visit = await signedVisit(VISIT);
  const change = fc.oneof<fc.Arbitrary<Partial<Entry>>[]>(
    fc.record({ said: fc.string({ unit: "binary" }) }),
    fc.record({ at: fc.date({ noInvalidDate: true, min: new Date(0) }).map((day) => day.toISOString()) }),
    fc.record({ confidence: fc.double({ min: 0, max: 1, noNaN: true }) }),
    fc.record({ id: fc.string({ minLength: 1 }) }),
  );
  await fc.assert(
    fc.asyncProperty(fc.nat(3), change, async (seq, changed) => {
      const entries = visit.entries.map((one) => (one.seq === seq ? { ...one, ...changed } : one));
      fc.pre(JSON.stringify(entries).toWellFormed() !== JSON.stringify(visit.entries));
      expect(await examine({ ...visit, entries }, EXAMINER)).toEqual({
        kind: "altered",
        misfits: [{ kind: "entry", seq }],
      });
    }),
    { numRuns: 60 },
  );
});
