import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { judged } from "../../../src/app/office/judged.ts";
import { type Told, takeIn } from "../../../src/app/office/take-in.ts";
import { type HandedFile, handedFile } from "../../../src/device/office/files.ts";
import type { Taken } from "../../../src/device/office/store.ts";
import { makeDeviceKey } from "../../../src/device/signing/signatures.ts";
import { exportVisit } from "../../../src/record/bundle.ts";
import { examine } from "../../../src/record/integrity/examine.ts";
import { type Export, lineOf, merge, type Revision } from "../../../src/record/office/kept.ts";
import { EXAMINER, signedVisit } from "../../support/cryptography.ts";
import { andThen, officeVisit, upTo } from "../../support/office.ts";
import { co2, note } from "../../support/visits.ts";
import { TAKEN_AT, visitOf } from "./kept-visits.ts";

const visit = (id: string) => officeVisit(id, [[60, co2(9.2, "high"), note("order a gasket")]]);
const bundle = (id: string) => file(`${id}.json`, exportVisit(visit(id)));

function file(name: string, content: string | Uint8Array<ArrayBuffer>): HandedFile {
  return handedFile(new File([content], name));
}

/** A store in memory, by the same rules. */
function memory() {
  const revisions = new Map<string, Revision[]>();
  const keep = async (exports: readonly Export[]): Promise<Taken[]> =>
    exports.map((each) => {
      const known = revisions.get(each.row.id) ?? [];
      const { as, kept, added } = merge(known, each, visitOf);
      if (added) revisions.set(each.row.id, [...known, added]);
      return { as, kept };
    });
  return { revisions, keep };
}

interface Changes {
  readonly keep?: (exports: readonly Export[]) => Promise<readonly Taken[]>;
  /** Ids of visits that are kept just so. */
  readonly known?: readonly string[];
  /** Stops once so many were judged. */
  readonly stopAfter?: number;
}

async function run(files: readonly HandedFile[], { keep, known = [], stopAfter = Infinity }: Changes = {}) {
  const store = memory();
  const told: Told[] = [];
  let count = 0;
  const stopped = await takeIn(files, {
    judged: (...of) => {
      count += 1;
      return judged(
        ...of,
        async (id, text) => known.includes(id) && text === lineOf(visit(id)),
        (each) => examine(each, EXAMINER),
      );
    },
    keep: keep ?? store.keep,
    now: () => TAKEN_AT,
    breathe: async () => undefined,
    isStopped: () => count >= stopAfter,
    tell: (one) => told.push(one),
  });
  const last = told.at(-1);
  return {
    stopped,
    revisions: store.revisions,
    ids: [...store.revisions.keys()],
    progress: last?.progress,
    told,
    sentences: told.flatMap(({ sentences }) => sentences),
  };
}

describe("files that are taken in", () => {
  test("one visit each; the same twice is one", async () => {
    const { ids, progress, stopped } = await run([bundle("a"), bundle("b"), bundle("a")]);
    expect(ids).toEqual(["a", "b"]);
    expect(progress).toMatchObject({ files: 3, of: 3, refused: 0, taken: { new: 2, same: 1 } });
    expect(progress?.bytes).toBe(progress?.ofBytes);
    expect(stopped).toBe(false);
  });

  test("what is kept already is not judged again, what differs from it is", async () => {
    const later = exportVisit(andThen(visit("b"), { kind: "reviewed", by: "R." }));
    const { ids, progress } = await run([bundle("a"), file("b.json", later)], { known: ["a", "b"] });
    expect(ids).toEqual(["b"]);
    expect(progress).toMatchObject({ files: 2, taken: { new: 1, same: 1 } });
  });

  test("many go in batches, and each batch tells how far it is", async () => {
    const files = Array.from({ length: 100 }, (_, number) => bundle(`v${number}`));
    const { told, ids } = await run(files);
    expect(ids).toHaveLength(100);
    expect(told.map(({ changed }) => changed.length)).toEqual([40, 40, 20]);
    expect(told.map(({ progress }) => progress.files)).toEqual([39, 79, 100]);
  });

  test("none at all", async () => {
    const { progress, stopped } = await run([]);
    expect(progress).toMatchObject({ files: 0, of: 0 });
    expect(stopped).toBe(false);
  });

  test("lines of one file: bad ones are told with their place, blank ones passed over", async () => {
    const [a, b] = [visit("a"), visit("b")].map(lineOf);
    const text = `${a}\r\n\n${a?.slice(0, 200)}\n  \n${b}`;
    const { ids, sentences, progress } = await run([file("all.jsonl", text)]);
    expect(ids).toEqual(["a", "b"]);
    expect(sentences).toHaveLength(1);
    expect(sentences[0]).toMatch(/^all\.jsonl, line 3, /);
    expect(progress).toMatchObject({ files: 1, of: 1, refused: 1 });
  });

  test.each([
    ["an empty file of lines", file("none.jsonl", ""), "none.jsonl: expected a visit a line, found nothing."],
    [
      "a limits sheet",
      file("demo-35.json", readFileSync("demo-data/sheets/demo-35.json", "utf8")),
      "demo-35.json: expected a visit, found a limits sheet; bring that in at the start.",
    ],
    [
      "one that is too large, which is not even read",
      {
        ...file("huge.json", ""),
        size: 40 * 1024 * 1024,
        bytes: () => Promise.reject(new Error("was read")),
      },
      "huge.json: Expected a visit bundle of at most 32 MiB, found 40.0 MiB.",
    ],
    [
      "one that cannot be read",
      { ...file("gone.json", "{}"), bytes: () => Promise.reject(new Error("it is gone")) },
      "gone.json: it cannot be read (it is gone).",
    ],
    [
      "a letter",
      file("letter.txt", "title: …"),
      /^letter\.txt: this is not an exported visit; ask for the visit's bundle/,
    ],
    [
      "a name that hides what it is",
      file("\u202egnp.\u0007exe\n.json", "[]"),
      /^\\u\{202e\}gnp\.\\u\{7\}exe\\u\{a\}\.json: this is not an exported visit; ask for/,
    ],
  ])("%s is told in one sentence", async (_, bad, sentence) => {
    const { sentences, ids, progress } = await run([bad, bundle("a")]);
    expect(sentences).toEqual([typeof sentence === "string" ? sentence : expect.stringMatching(sentence)]);
    expect(ids).toEqual(["a"]);
    expect(progress).toMatchObject({ files: 2, of: 2, refused: 1 });
  });
});

test("each awkward file gives one sentence with its name, and changes nothing, but the two visits", async () => {
  const names = readdirSync("demo-data/awkward").filter((name) => name.endsWith(".json"));
  const files = names.map((name) => file(name, new Uint8Array(readFileSync(`demo-data/awkward/${name}`))));
  const { ids, sentences } = await run(files);
  expect(ids).toEqual(["altered-1", "hostile-1"]);
  const bad = names.filter((name) => !["altered.json", "hostile-visit.json"].includes(name));
  expect(sentences.map((sentence) => sentence.split(/[:,] /)[0])).toEqual(bad);
  for (const sentence of sentences) expect(sentence).toMatch(/^[^\n\p{Cc}\p{Cf}]+\.$/u);
  // The first of what `check` says of it, and how many more.
  expect(sentences.find((sentence) => sentence.startsWith("gap-and-stray"))).toBe(
    "gap-and-stray.json, entries[2].seq (entry 3 of the visit): Expected 2, as places go up without gaps, found 5; and one more problem.",
  );
});

test("what was found of a visit's log is kept with it, and its text keeps what it is checked by", async () => {
  const key = await makeDeviceKey();
  const each = visit("signed");
  const signed = await signedVisit(each, { key, entries: each.entries.length });
  const altered = { ...signed, head: { ...signed.head, id: "altered" } };
  const { revisions, progress } = await run(
    [signed, altered, altered].map((one) => file(`${one.head.id}.json`, exportVisit(one))),
  );
  // The same twice is one.
  expect(progress).toMatchObject({ taken: { new: 2, same: 1 }, altered: 1 });
  const found = [...revisions.values()].flat().map(({ log, text }) => [log, visitOf(text)]);
  expect(found).toEqual([
    [{ verdict: "whole", key: key.thumbprint }, signed],
    [{ verdict: "altered", key: null }, altered],
  ]);
});

describe("stopping", () => {
  test("what was judged by then is kept, and nothing else", async () => {
    const files = Array.from({ length: 100 }, (_, number) => bundle(`v${number}`));
    const { stopped, ids, progress } = await run(files, { stopAfter: 57 });
    expect(stopped).toBe(true);
    expect(ids).toHaveLength(57);
    expect(progress).toMatchObject({ files: 56, of: 100, taken: { new: 57 } });
  });

  test("also in the middle of a file of lines", async () => {
    const lines = Array.from({ length: 50 }, (_, number) => lineOf(visit(`v${number}`))).join("\n");
    const { stopped, ids } = await run([file("all.jsonl", lines)], { stopAfter: 5 });
    expect([stopped, ids.length]).toEqual([true, 5]);
  });
});

test("a store that fails ends it, and is no fault of a file", async () => {
  const keep = () => Promise.reject(new Error("the device is out of space for it"));
  await expect(run([bundle("a")], { keep })).rejects.toThrow("out of space");
});

test("a later export supersedes whatever the order", async () => {
  const later = visit("a");
  const files = [later, upTo(later, 1)].map((each, number) => file(`${number}.json`, exportVisit(each)));
  const { progress } = await run(files);
  expect(progress).toMatchObject({ taken: { new: 1, older: 1 } });
});
