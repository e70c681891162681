import "fake-indexeddb/auto";
import { describe, expect, test } from "vitest";
import { READERS } from "../../../src/app/readers.ts";
import type { Linking } from "../../../src/device/notebook/linker.ts";
import { type Notebook, openNotebook } from "../../../src/device/notebook/notebook.ts";
import type { DeviceKey } from "../../../src/device/signing/device-key.ts";
import type { VoiceProfile } from "../../../src/device/spotter/voice-profile.ts";
import type { Entry } from "../../../src/visit/entry.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { SHEET, VISIT } from "../../record/visit.ts";
import { type Operation, underEveryFault } from "../../support/every-fault.ts";

const { id } = VISIT.head;
const AT = "2026-11-26T10:00:00.000Z";
const OTHER: Visit = { ...VISIT, head: { ...VISIT.head, id: "v2" } };
const CLIP = { visitId: id, seq: 0, at: AT, type: "audio/wav", data: new ArrayBuffer(8) };
const KEY = "settings";
const LONGER: Visit = { ...VISIT, entries: [...VISIT.entries, note(4), note(5)] };
/** Not a real one: only kept and given back. */
const DEVICE_KEY = { id: "device" } as unknown as DeviceKey;

function note(seq: number): Entry {
  const said = { phrase: "note x", said: "note x" };
  return {
    id: `n${seq}`,
    seq,
    at: AT,
    engine: "typed",
    ...said,
    confidence: 1,
    body: { kind: "note", text: "x" },
  };
}

/** Too small for a real one: only kept and given back. */
const LAYER = { kernel: new Float32Array([0.5, -1]), bias: new Float32Array([0.25]) };
const VOICE: VoiceProfile = {
  id: "p1",
  name: "Ada",
  taughtAt: AT,
  spotter: { base: "b", hidden: LAYER, head: LAYER },
  gain: { heldBack: 20, rightBefore: 15, rightAfter: 19 },
  on: true,
};
const withVoice = (notebook: Notebook) => notebook.voices.keep(VOICE);
const withVisit = (notebook: Notebook) => notebook.addVisit(VISIT, "here");
const withClip = async (notebook: Notebook) => {
  await withVisit(notebook);
  await notebook.clips.keep(CLIP, KEY, () => true);
};

const READING: readonly [string, Operation<Notebook>][] = [
  ["visits", { prepare: withVisit, run: (notebook) => notebook.visits() }],
  ["visit", { prepare: withVisit, run: (notebook) => notebook.visit(id) }],
  ["bundle", { prepare: withVisit, run: (notebook) => notebook.bundle(id) }],
  ["sheets", { prepare: (notebook) => notebook.keepSheet(SHEET), run: (notebook) => notebook.sheets() }],
  [
    "setting",
    { prepare: (notebook) => notebook.keepSetting(KEY, 1), run: (notebook) => notebook.setting(KEY) },
  ],
  ["handed", { run: (notebook) => notebook.handed() }],
  ["clips of a visit", { prepare: withClip, run: (notebook) => notebook.clips.of(id) }],
  ["clip", { prepare: withClip, run: (notebook) => notebook.clips.get(id, 0) }],
  ["voices", { prepare: withVoice, run: (notebook) => notebook.voices.all() }],
  ["voice", { prepare: withVoice, run: (notebook) => notebook.voices.get("p1") }],
];

const WRITING: readonly [string, Operation<Notebook>][] = [
  ["addVisit, begun here", { run: (notebook) => notebook.addVisit(VISIT, "here") }],
  ["addVisit, from a file", { prepare: withVisit, run: (notebook) => notebook.addVisit(OTHER, "file") }],
  ["append", { prepare: withVisit, run: (notebook) => notebook.append(id, [note(4), note(5)]) }],
  [
    "append, again and again",
    {
      prepare: async (notebook) => {
        await withVisit(notebook);
        await notebook.append(id, [note(4)]);
      },
      run: (notebook) => notebook.append(id, [note(5)]),
    },
  ],
  ["extend", { prepare: withVisit, run: (notebook) => notebook.extend(LONGER) }],
  ["dropVisit", { prepare: withClip, run: (notebook) => notebook.dropVisit(id) }],
  ["keepSignature", { prepare: withVisit, run: (notebook) => notebook.keepSignature(id, "signed") }],
  ["deviceKey", { run: (notebook) => notebook.deviceKey(async () => DEVICE_KEY) }],
  [
    "markHanded",
    {
      run: (notebook) =>
        notebook.markHanded([
          { visitId: id, entries: 4, at: AT },
          { visitId: "v2", entries: 1, at: AT },
        ]),
    },
  ],
  ["keepSheet", { run: (notebook) => notebook.keepSheet(SHEET) }],
  [
    "dropSheet",
    { prepare: (notebook) => notebook.keepSheet(SHEET), run: (notebook) => notebook.dropSheet(SHEET.id) },
  ],
  ["keepSetting", { run: (notebook) => notebook.keepSetting(KEY, { talk: "less" }) }],
  ["clips.keep", { prepare: withVisit, run: (notebook) => notebook.clips.keep(CLIP, KEY, () => true) }],
  [
    "clips.dropBefore",
    { prepare: withClip, run: (notebook) => notebook.clips.dropBefore("2027-01-01T00:00:00.000Z") },
  ],
  ["voices.keep", { run: withVoice }],
  [
    "voices.keep, in place of another",
    { prepare: withVoice, run: (notebook) => notebook.voices.keep({ ...VOICE, on: false }) },
  ],
  ["voices.drop", { prepare: withVoice, run: (notebook) => notebook.voices.drop("p1") }],
  ["clips.dropAll", { prepare: withClip, run: (notebook) => notebook.clips.dropAll(KEY, false) }],
];

/** No cryptography: that links are right is tested elsewhere. */
const LINKING: Linking = {
  head: async ({ id: visitId }) => `of ${visitId}`,
  next: async (previous, entry) => `${previous} ${entry.id}`,
};
const opened = (name: string) => openNotebook(READERS, LINKING, name);

describe("whatever step in the database fails, nothing is half stored, it is said why, and the next try works", () => {
  test.each(WRITING)("%s", async (_, operation) => {
    expect(await underEveryFault(opened, operation)).toBeGreaterThan(0);
  });
});

/** A notebook from before logs were linked. */
async function openedOld(name: string): Promise<Notebook> {
  const old = await openNotebook(READERS, null, name);
  await old.addVisit(VISIT, "here");
  return opened(name);
}

describe("a log from before it was linked: its links are worked out first, and stay", () => {
  const between = ["integrity"];
  test.each<[string, Operation<Notebook>]>([
    ["append", { run: (notebook) => notebook.append(id, [note(4)]), between }],
    ["bundle", { run: (notebook) => notebook.bundle(id), between }],
  ])("%s", async (_, operation) => {
    expect(await underEveryFault(openedOld, operation)).toBeGreaterThan(0);
  });
});

describe("reading, too: it fails in a sentence or gives what is stored", () => {
  test.each(READING)("%s", async (_, operation) => {
    expect(await underEveryFault(opened, operation)).toBeGreaterThan(0);
  });
});
