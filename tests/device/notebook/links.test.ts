import "fake-indexeddb/auto";
import { beforeEach, describe, expect, test } from "vitest";
import { storeAnew } from "../../../src/app/boiler/store-anew.ts";
import { LINKING } from "../../../src/app/linking.ts";
import { READERS } from "../../../src/app/readers.ts";
import { type Notebook, openNotebook } from "../../../src/device/notebook/notebook.ts";
import { makeDeviceKey } from "../../../src/device/signing/signatures.ts";
import { examine } from "../../../src/record/integrity/examine.ts";
import type { Entry } from "../../../src/visit/entry.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { VISIT } from "../../record/visit.ts";
import { EXAMINER, signedVisit } from "../../support/cryptography.ts";

// What stands on the disk fits its links, whatever other windows did meanwhile.

let name = "";
let tests = 0;
beforeEach(() => {
  tests += 1;
  name = `links-${tests}`;
});

const { id } = VISIT.head;
const window = () => openNotebook(READERS, LINKING, name);

function note(seq: number, text = "a note"): Entry {
  const said = { phrase: text, said: text };
  const at = "2026-11-26T10:00:00.000Z";
  return { id: `n${seq}`, seq, at, engine: "typed", ...said, confidence: 1, body: { kind: "note", text } };
}

const withNotes = (...texts: string[]): Visit => ({
  ...VISIT,
  entries: [...VISIT.entries, ...texts.map((text, place) => note(4 + place, text))],
});

async function found(notebook: Notebook): Promise<unknown> {
  return examine((await notebook.bundle(id)).visit, EXAMINER);
}
const textsOf = async (notebook: Notebook) =>
  (await notebook.visit(id)).entries.flatMap(({ body }) => (body.kind === "note" ? [body.text] : []));

describe("another window puts another log of as many entries in place of one that is added to", () => {
  const cases: [string, (other: Notebook) => Promise<void>][] = [
    [
      "begun there",
      async (other) => {
        await other.addVisit(VISIT, "here");
        await other.append(id, [note(4, "two")]);
      },
    ],
    ["from a file", (other) => other.addVisit(withNotes("two"), "file")],
  ];
  test.each(cases)("%s: what is added does not break its links", async (_, replace) => {
    const [here, other] = [await window(), await window()];
    await here.addVisit(VISIT, "here");
    await here.append(id, [note(4, "one")]);
    await other.dropVisit(id);
    await replace(other);
    await expect(here.append(id, [note(5)])).rejects.toThrow("Another window");
    await here.append(id, [note(5)]);
    expect(await found(here)).toEqual({ kind: "unsigned", linked: true });
  });

  test("put back by this window: the end that was known is forgotten", async () => {
    const here = await window();
    await here.addVisit(VISIT, "here");
    await here.append(id, [note(4, "one")]);
    await (await window()).dropVisit(id);
    await here.addVisit(withNotes("two"), "file");
    await here.append(id, [note(5)]);
    expect(await found(here)).toEqual({ kind: "unsigned", linked: true });
  });
});

describe("a visit that is gone, stored anew by two windows", () => {
  test.each([
    ["the second knows more", ["one"], ["one", "two"]],
    ["the first knows more", ["one", "two"], ["one"]],
    ["both know the same", ["one"], ["one"]],
  ])("%s: nothing that was answered is lost", async (_, first, second) => {
    const [here, other] = [await window(), await window()];
    await storeAnew(here, withNotes(...first));
    await storeAnew(other, withNotes(...second));
    expect(await textsOf(here)).toEqual(first.length > second.length ? first : second);
    expect(await found(here)).toEqual({ kind: "unsigned", linked: true });
  });

  test("they part: what is there stays, and it is told", async () => {
    const [here, other] = [await window(), await window()];
    await storeAnew(here, withNotes("one"));
    await expect(storeAnew(other, withNotes("two", "three"))).rejects.toThrow("nothing was added");
    expect(await textsOf(here)).toEqual(["one"]);
  });
});

test("what is added where nothing can be linked makes no honest log look altered", async () => {
  const plain = await openNotebook(READERS, null, name);
  await plain.addVisit(await signedVisit(VISIT, { key: await makeDeviceKey(), entries: 4 }), "file");
  expect(await found(plain)).toMatchObject({ kind: "whole" });
  await plain.append(id, [note(4)]);
  expect(await found(plain)).toEqual({ kind: "unsigned", linked: false });
});

test("a longer copy is let in whatever order the stored fields have", async () => {
  const here = await window();
  const { body, ...rest } = note(4, "one");
  await here.addVisit({ ...VISIT, entries: [...VISIT.entries, { body, ...rest }] }, "here");
  await here.extend(withNotes("one", "two"));
  expect(await textsOf(here)).toEqual(["one", "two"]);
});
