import { NOTHING_FOUND } from "../../../src/record/office/log-found.ts";
import "fake-indexeddb/auto";
import { gunzipSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { NOTHING_RESTORED } from "../../../src/app/backup/restored.ts";
import { openBackup } from "../../../src/app/backup/source.ts";
import { restoredInWords } from "../../../src/app/backup/words.ts";
import { SETTINGS_KEY } from "../../../src/app/preferences.ts";
import { FIRST_SETTINGS } from "../../../src/app/settings.ts";
import type { ClipRow } from "../../../src/device/notebook/clip-shelf.ts";
import { exportOf } from "../../../src/record/office/kept.ts";
import type { Entry } from "../../../src/visit/entry.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { anySheet, anyVisit } from "../../record/arbitrary.ts";
import { SHEET, VISIT } from "../../record/visit.ts";
import { type Device, NOW, newDevice } from "./device.ts";

const text = { engine: "typed", phrase: "as said", said: "as said", confidence: 1 } as const;
const entry = (seq: number, body: Entry["body"], at = NOW): Entry => ({
  id: `e${seq}`,
  seq,
  at,
  ...text,
  body,
});
const note = (seq: number, words = "a note") => entry(seq, { kind: "note", text: words });
const finish = (seq: number) => entry(seq, { kind: "mark", mark: "finished" });
const clip = (seq: number, at = "2026-11-25T09:00:00.000Z") => ({
  visitId: "v1",
  seq,
  at,
  type: "audio/wav",
  data: Uint8Array.from({ length: 300 }, (_, place) => place % 256).buffer,
});
const keep = (device: Device, one: ClipRow) => device.notebook.clips.keep(one, SETTINGS_KEY, () => true);

/** The visits, sheets, sound and exports of a device, in an order of their own. */
async function all({ notebook, office }: Device) {
  const heads = (await notebook.visits()).whole.map(({ id }) => id).sort();
  const visits: Visit[] = [];
  const clips: unknown[] = [];
  for (const id of heads) {
    visits.push((await notebook.bundle(id)).visit);
    for (const row of await notebook.clips.rowsOf(id))
      clips.push({ ...row, data: [...new Uint8Array(row.data)] });
  }
  const sheets = [...(await notebook.sheets()).whole].sort((a, b) => a.id.localeCompare(b.id));
  const revisions = await Promise.all((await office.ids()).map((id) => office.revisionsOf(id)));
  return {
    visits,
    clips,
    sheets,
    revisions: revisions.flat().map(({ text: line, file }) => ({ line, file })),
    done: await office.done(),
  };
}

/** A device with a signed visit, a sheet, sound and an office. */
async function full(): Promise<Device> {
  const device = await newDevice();
  await device.notebook.addVisit(VISIT, "here");
  await device.notebook.append("v1", [finish(4)]);
  await device.notebook.keepSheet(SHEET);
  await keep(device, clip(0));
  await device.office.keep([
    exportOf({ ...VISIT, head: { ...VISIT.head, id: "o1" } }, NOTHING_FOUND, "a-van.json", NOW),
  ]);
  await device.office.markDone({ key: "o1:n:0", visitId: "o1", at: NOW, by: "Office" });
  await device.preferences.change({ units: "si", technician: "I. Nvented" });
  return device;
}

test("everything comes back on an empty device, with what its logs are checked by", async () => {
  const [one, other] = [await full(), await newDevice()];
  const restored = await other.restore(await one.backUp());
  expect(restored).toEqual({
    ...NOTHING_RESTORED,
    visits: { ...NOTHING_RESTORED.visits, added: 1 },
    sheets: { added: 1, same: 0, other: 0 },
    clips: { ...NOTHING_RESTORED.clips, added: 1 },
    office: { added: 1, same: 0, refused: 0 },
    officeDone: 1,
    settings: "taken",
  });
  expect(await all(other)).toEqual(await all(one));
  expect(other.preferences.chosen.value).toMatchObject({ units: "si", technician: "I. Nvented" });
  const { finding } = await other.signing.handOver("v1");
  expect(finding).toMatchObject({ kind: "whole", signedEntries: 5, entries: 5 });
  // It goes on, and is signed as one whose beginning came in a file.
  await other.notebook.append("v1", [note(5), finish(6)]);
  expect((await other.signing.handOver("v1")).finding).toMatchObject({ kind: "whole", signedEntries: 7 });
});

test("nothing of the device's key is in it", async () => {
  const device = await full();
  await device.signing.handOver("v1");
  const lines = gunzipSync(Buffer.from(await (await device.backUp()).arrayBuffer()))
    .toString("utf8")
    .trim()
    .split("\n");
  expect(lines.map((line) => JSON.parse(line).kind)).toEqual([
    "head",
    "settings",
    "sheet",
    "visit",
    "clip",
    "office-visit",
    "office-done",
    "end",
  ]);
  expect(lines.join("")).not.toMatch(/"d":|PRIVATE|privateKey/);
});

test("any notebook comes back from its file as it was", () =>
  fc.assert(
    fc.asyncProperty(
      fc.uniqueArray(anyVisit, { maxLength: 3, selector: ({ head }) => head.id }),
      fc.uniqueArray(anySheet, { maxLength: 2, selector: ({ id }) => id }),
      async (visits, sheets) => {
        const [one, other] = [await newDevice(), await newDevice()];
        for (const visit of visits) await one.notebook.addVisit(visit, "here");
        for (const sheet of sheets) await one.notebook.keepSheet(sheet);
        await other.restore(await one.backUp());
        expect(await all(other)).toEqual(await all(one));
        // And a second time nothing changes.
        const before = await all(other);
        expect((await other.restore(await one.backUp())).visits.added).toBe(0);
        expect(await all(other)).toEqual(before);
      },
    ),
    { numRuns: 12 },
  ));

describe("a visit that is here already", () => {
  const cases: readonly (readonly [
    string,
    Entry[],
    Entry[],
    keyof typeof NOTHING_RESTORED.visits,
    Entry[],
  ])[] = [
    ["the same", [], [], "same", []],
    ["the backup goes on", [], [note(4), finish(5)], "extended", [note(4), finish(5)]],
    ["what is here goes on", [note(4), finish(5)], [], "longerHere", [note(4), finish(5)]],
    ["they part", [note(4, "here")], [note(4, "there")], "parted", [note(4, "here")]],
    [
      "they part, the backup's is longer",
      [note(4, "here")],
      [note(4, "there"), note(5)],
      "parted",
      [note(4, "here")],
    ],
  ];

  test.each(cases)("%s", async (_, here, there, fate, stands) => {
    const [one, other] = [await newDevice(), await newDevice()];
    for (const [device, more] of [
      [one, there],
      [other, here],
    ] as const) {
      await device.notebook.addVisit(VISIT, "here");
      await device.notebook.append("v1", more);
    }
    const restored = await other.restore(await one.backUp());
    expect(restored.visits).toEqual({ ...NOTHING_RESTORED.visits, [fate]: 1 });
    const after = await other.notebook.bundle("v1");
    expect(after.visit.entries).toEqual([...VISIT.entries, ...stands]);
    expect((await other.signing.examine(after.visit)).finding?.kind).not.toBe("altered");
    const told = restored.told.map(({ kind }) => kind);
    expect(told).toEqual(fate === "parted" ? ["parted"] : []);
    // It goes on whatever came of it.
    const next = after.visit.entries.length;
    await other.notebook.append("v1", [note(next), finish(next + 1)]);
    expect((await other.signing.handOver("v1")).finding?.kind).toBe("whole");
  });

  test("and cannot be read stays as it is, and is told", async () => {
    const [one, other] = [await newDevice(), await newDevice()];
    await one.notebook.addVisit(VISIT, "here");
    await other.notebook.addVisit({ ...VISIT, entries: [{ ...note(0), at: "never" }] }, "here");
    const restored = await other.restore(await one.backUp());
    expect(restored).toMatchObject({
      visits: { unreadable: 1 },
      told: [{ kind: "unreadable", title: "Invented" }],
    });
    await expect(other.notebook.visit("v1")).rejects.toThrow();
  });

  test("and of which not even the head can be read: the rest of the backup is restored", async () => {
    const [one, other] = [await newDevice(), await newDevice()];
    const later = { ...VISIT.head, id: "v2", startedAt: "2026-11-26T11:00:00.000Z" };
    await one.notebook.addVisit(VISIT, "here");
    await one.notebook.addVisit({ ...VISIT, head: later }, "here");
    await other.notebook.addVisit({ ...VISIT, head: { ...later, startedAt: "never" } }, "here");
    expect(await other.restore(await one.backUp())).toMatchObject({
      visits: { added: 1, unreadable: 1 },
      stopped: null,
    });
  });

  test("is not spoilt by a longer one that somebody altered", async () => {
    const [one, other] = [await newDevice(), await newDevice()];
    await other.notebook.addVisit(VISIT, "here");
    const { integrity } = (await other.notebook.bundle("v1")).visit;
    const links = [...(integrity?.links ?? []), "A".repeat(43)];
    const altered = { ...VISIT, entries: [...VISIT.entries, note(4)], integrity: { links, signatures: [] } };
    await one.notebook.addVisit(altered, "file");
    const restored = await other.restore(await one.backUp());
    expect(restored).toMatchObject({ visits: { alteredThere: 1 }, told: [{ kind: "alteredThere" }] });
    expect(restoredInWords(restored).left).toContainEqual(expect.stringContaining("was altered there"));
    const { visit } = await other.notebook.bundle("v1");
    expect((await other.signing.examine(visit)).finding).toEqual({ kind: "unsigned", linked: true });
  });

  test("a copy whose links are others is not let in, even where its entries are the same", async () => {
    const [one, other] = [await newDevice(), await newDevice()];
    await one.notebook.addVisit(
      {
        ...VISIT,
        entries: [...VISIT.entries, note(4)],
        integrity: { links: Array.from({ length: 6 }, () => "A".repeat(43)), signatures: [] },
      },
      "file",
    );
    await other.notebook.addVisit(VISIT, "here");
    expect((await other.restore(await one.backUp())).visits.parted).toBe(1);
    expect((await other.notebook.visit("v1")).entries).toHaveLength(4);
  });
});

test("a log that was altered before the backup was made is restored, and told", async () => {
  const [one, other] = [await newDevice(), await newDevice()];
  await one.notebook.addVisit(
    { ...VISIT, integrity: { links: Array.from({ length: 5 }, () => "A".repeat(43)), signatures: [] } },
    "file",
  );
  expect(await other.restore(await one.backUp())).toMatchObject({
    visits: { added: 1 },
    told: [{ kind: "altered" }],
  });
});

test("a sheet of the same id with other content stays as it is here", async () => {
  const [one, other] = [await newDevice(), await newDevice()];
  await one.notebook.keepSheet({ ...SHEET, title: "There" });
  await other.notebook.keepSheet({ ...SHEET, title: "Here" });
  const restored = await other.restore(await one.backUp());
  expect(restored).toMatchObject({ sheets: { other: 1 }, told: [{ kind: "other-sheet", title: "There" }] });
  expect((await other.notebook.sheets()).whole).toMatchObject([{ title: "Here" }]);
});

describe("settings", () => {
  test("stay where that is wanted", async () => {
    const [one, other] = [await full(), await newDevice()];
    const restored = await other.restore(await one.backUp(), false);
    expect([restored.settings, other.preferences.chosen.value.units]).toEqual(["left", "us"]);
  });

  test("that keep no sound delete none here", async () => {
    const [one, other] = [await newDevice(), await full()];
    await one.preferences.change({ ...FIRST_SETTINGS, keepClips: false });
    await other.restore(await one.backUp());
    expect(await other.notebook.clips.count()).toBe(1);
  });
});

describe("sound", () => {
  test.each<readonly [string, (one: Device, other: Device) => Promise<unknown>, object]>([
    ["is here already", (_, other) => keep(other, clip(0)), { same: 1 }],
    [
      "is too old to be kept here",
      (one) => keep(one, clip(1, "2026-10-01T09:00:00.000Z")),
      { added: 1, notKept: 1 },
    ],
    [
      "is not kept on this device",
      (_, other) => other.preferences.change({ keepClips: false }),
      { notKept: 1 },
    ],
    [
      "is of a visit that went another way",
      (one, other) =>
        Promise.all([
          one.notebook.append("v1", [note(4, "there")]),
          other.notebook.append("v1", [note(4, "here")]),
        ]),
      { withoutVisit: 1 },
    ],
  ])("that %s", async (_, prepare, clips) => {
    const [one, other] = [await newDevice(), await newDevice()];
    for (const device of [one, other]) await device.notebook.addVisit(VISIT, "here");
    await keep(one, clip(0));
    await prepare(one, other);
    expect((await other.restore(await one.backUp())).clips).toEqual({ ...NOTHING_RESTORED.clips, ...clips });
  });

  test("comes back with who spoke, or with nobody", async () => {
    const [one, other] = [await newDevice(), await newDevice()];
    await one.notebook.addVisit(VISIT, "here");
    await keep(one, clip(0));
    await keep(one, { ...clip(1), speaker: "ada" });
    expect((await other.restore(await one.backUp())).clips.added).toBe(2);
    const { clips } = await all(other);
    expect(clips).toEqual((await all(one)).clips);
    expect(clips).toMatchObject([expect.not.objectContaining({ speaker: "ada" }), { speaker: "ada" }]);
  });

  test("is left out where that is wanted", async () => {
    const [one, other] = [await full(), await newDevice()];
    expect((await other.restore(await one.backUp(null, false))).clips).toEqual(NOTHING_RESTORED.clips);
  });
});

test("a visit that cannot be read is not in the backup, which says so", async () => {
  const device = await newDevice();
  await device.notebook.addVisit(VISIT, "here");
  await device.notebook.addVisit(
    { ...VISIT, head: { ...VISIT.head, id: "v2", title: "Broken" }, entries: [{ ...note(0), at: "never" }] },
    "here",
  );
  await device.backUp();
  expect(device.desk.outcome.value).toMatchObject({
    kind: "made",
    missing: [expect.stringMatching(/^Visit “Broken” cannot be read: /)],
  });
  expect((await device.notebook.handed()).map(({ visitId }) => visitId)).toEqual(["v1"]);
});

test("where the store fails it ends there, says so, and what is stored stays", async () => {
  const [one, other] = [await newDevice(), await newDevice()];
  for (const id of ["a", "b", "c"])
    await one.notebook.addVisit({ ...VISIT, head: { ...VISIT.head, id } }, "here");
  const file = await one.backUp();
  let left = 2;
  const { addVisit } = other.notebook;
  Object.assign(other.notebook, {
    addVisit: async (...given: Parameters<typeof addVisit>) => {
      left -= 1;
      if (left < 0) throw new Error("the device is out of space for it");
      return addVisit(...given);
    },
  });
  const restored = await other.restore(file);
  expect(restored).toMatchObject({ visits: { added: 2 }, stopped: "the device is out of space for it" });
  expect((await other.notebook.visits()).whole).toHaveLength(2);
  expect(restoredInWords(restored).left).toContain(
    "It ended before its end: the device is out of space for it. What was restored so far stays.",
  );
});

describe("what was handed over", () => {
  test("a backup counts, up to its last entry; what came after is on this device only", async () => {
    const device = await newDevice();
    await device.notebook.addVisit(VISIT, "here");
    expect(await device.notebook.unhanded()).toEqual([{ visitId: "v1", since: VISIT.entries[0]?.at }]);
    await device.backUp();
    expect(await device.notebook.unhanded()).toEqual([]);
    await device.notebook.append("v1", [note(4)]);
    expect(await device.notebook.unhanded()).toEqual([{ visitId: "v1", since: NOW }]);
  });

  test("so does what came out of one", async () => {
    const [one, other] = [await full(), await newDevice()];
    await other.restore(await one.backUp());
    expect(await other.notebook.unhanded()).toEqual([]);
  });

  test("on a full disk the file is out all the same, and the reminder comes back", async () => {
    const device = await newDevice();
    await device.notebook.addVisit(VISIT, "here");
    device.notebook.markHanded = () => Promise.reject(new Error("the device is out of space for it"));
    await device.backUp();
    expect(device.desk.outcome.value).toMatchObject({ kind: "made" });
    expect(await device.notebook.unhanded()).toHaveLength(1);
  });

  test("a visit without entries is nothing to lose", async () => {
    const device = await newDevice();
    await device.notebook.addVisit({ ...VISIT, entries: [] }, "here");
    expect(await device.notebook.unhanded()).toEqual([]);
  });
});

test("the reminder comes after 14 days, goes with a backup, and is put off for a week", async () => {
  let now = "2026-11-26T12:00:00.000Z";
  const device = await newDevice(() => now);
  await device.notebook.addVisit({ ...VISIT, entries: [note(0)] }, "here");
  await device.desk.look();
  expect(device.desk.reminder.value).toBeNull();
  now = "2026-12-11T12:00:00.000Z";
  await device.desk.look();
  expect(device.desk.reminder.value).toEqual({ count: 1, since: NOW });
  await device.desk.putOff();
  now = "2026-12-18T11:59:00.000Z";
  await device.desk.look();
  expect(device.desk.reminder.value).toBeNull();
  now = "2026-12-18T12:01:00.000Z";
  await device.desk.look();
  expect(device.desk.reminder.value).not.toBeNull();
  await device.backUp();
  expect(device.desk.reminder.value).toBeNull();
});

test("a locked one gives its lines for the right passphrase, however that is typed", async () => {
  const device = await full();
  const opened = await openBackup(await device.backUp("caf\u00e9 au lait, \uff21"), "locked");
  if (opened.kind !== "locked") throw new Error("Expected a locked one.");
  expect(await opened.unlock("cafe au lait, A")).toBeNull();
  const lines = await opened.unlock("cafe\u0301 au lait, A");
  let count = 0;
  for await (const _ of lines?.() ?? []) count += 1;
  expect(count).toBe(8);
  expect(device.files[0]?.name).toBe("burnerside-backup-2026-11-26.jsonl.gz.locked");
});
