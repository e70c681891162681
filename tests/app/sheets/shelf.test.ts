import { describe, expect, test } from "vitest";
import { SheetForm } from "../../../src/app/sheets/form.ts";
import { SheetShelf } from "../../../src/app/sheets/shelf.ts";
import type { Sheet } from "../../../src/visit/sheet.ts";
import { NATURAL_GAS, sheet } from "../../support/sheets.ts";

const DEMO = sheet({ id: "demo", title: "Demo" });
const OWN = sheet({ id: "own", title: "Own", fuels: { "natural-gas": NATURAL_GAS } });

/** A shelf over a disk that can be full. */
function shelf(setting?: unknown) {
  const disk = { sheets: new Map<string, Sheet>([["own", OWN]]), setting, full: false };
  let ids = 0;
  const write = (work: () => void) => async () => {
    if (disk.full) throw new Error("full");
    work();
  };
  const made = new SheetShelf({
    notebook: {
      keepSheet: (one) => write(() => disk.sheets.set(one.id, one))(),
      dropSheet: (id) => write(() => disk.sheets.delete(id))(),
      setting: async () => disk.setting,
      keepSetting: (_, value) =>
        write(() => {
          disk.setting = structuredClone(value);
        })(),
    },
    demo: [DEMO],
    newId: () => {
      ids += 1;
      return `new${ids}`;
    },
    units: () => "us",
    today: () => "2026-11-26",
    guard: async (work) => {
      try {
        await work();
        return true;
      } catch {
        return false;
      }
    },
  });
  made.own.value = [OWN];
  return { shelf: made, disk };
}

test("own sheets come before the demo's, and one with a demo's id in its place", () => {
  const { shelf: one } = shelf();
  expect(one.all.value).toEqual([OWN, DEMO]);
  expect([one.isDemo(DEMO), one.isDemo(OWN), one.find("demo"), one.find("gone")]).toEqual([
    true,
    false,
    DEMO,
    null,
  ]);
  const mine = { ...OWN, id: "demo" };
  one.own.value = [mine];
  expect(one.all.value).toEqual([mine]);
  expect(one.isDemo(mine)).toBe(false);
});

describe("forms", () => {
  test("of a new sheet: today, in the person's units", () => {
    expect(shelf().shelf.draft(null)).toMatchObject({
      id: "new1",
      source: { enteredOn: "2026-11-26" },
      fuels: { "natural-gas": { "gas-pressure-inlet": { static: { unit: "[in_i'H2O]" } } } },
    });
  });
  test("of an own sheet, but not of the demo's or of none", () => {
    const { shelf: one } = shelf();
    expect([one.draft("own")?.title, one.draft("demo"), one.draft("gone")]).toEqual(["Own", null, null]);
  });
  test("are there again after the page was closed, by their addresses", async () => {
    const { shelf: before, disk } = shelf();
    const own = before.draft("own");
    const fresh = before.draft(null);
    if (!own || !fresh) throw new Error("Expected two forms.");
    before.hold("own", { ...own, title: "Own, changed" });
    before.hold("", { ...fresh, title: "Fresh" });
    await before.store();
    const { shelf: later } = shelf(disk.setting);
    await later.load();
    expect([later.draft("own")?.title, later.draft(null)?.title]).toEqual(["Own, changed", "Fresh"]);
    await later.discard("own");
    expect(later.draft("own")?.title).toBe("Own");
  });
  test.each([
    ["nothing", undefined],
    ["something else", { key: 7 }],
    ["an older kind", [{ key: "a", draft: { id: "a" } }]],
  ])("stored is %s: none is under way", async (_, stored) => {
    const { shelf: one } = shelf(stored);
    await one.load();
    expect(one.unsaved.value).toEqual([]);
  });
  test("a copy is a form of its own, under its own address", async () => {
    const { shelf: one, disk } = shelf();
    const id = await one.copy(DEMO);
    expect(one.draft(id)).toMatchObject({ id, title: "Copy of Demo", source: { document: "" } });
    expect(disk.setting).toMatchObject([{ key: id }]);
    expect(disk.sheets.has(id)).toBe(false);
  });
});

describe("a form", () => {
  const formOf = (id: string) => {
    const { shelf: one, disk } = shelf();
    const draft = one.draft(id);
    if (!draft) throw new Error("Expected a form.");
    return { form: new SheetForm(one, id, draft), one, disk };
  };
  test("is saved in place of its sheet, and is no longer under way", async () => {
    const { form, one, disk } = formOf("own");
    form.change({ title: "Renamed" });
    expect(form.changed.value).toBe(true);
    expect(await form.save()).toBe(true);
    expect([
      disk.sheets.get("own")?.title,
      one.own.value.map(({ title }) => title),
      form.changed.value,
    ]).toEqual(["Renamed", ["Renamed"], false]);
  });
  test("with a problem is not saved", async () => {
    const { form, disk } = formOf("own");
    form.change({ title: "" });
    expect(await form.save()).toBe(false);
    expect(disk.sheets.get("own")?.title).toBe("Own");
    expect(form.changed.value).toBe(true);
  });
  test("that the disk does not take is still under way", async () => {
    const { form, one, disk } = formOf("own");
    form.change({ title: "Renamed" });
    disk.full = true;
    expect(await form.save()).toBe(false);
    expect([one.own.value[0]?.title, form.changed.value]).toEqual(["Own", true]);
  });
  test("tells what is only missing once somebody was there, or wanted to save", async () => {
    const { form } = formOf("own");
    form.change({ title: "" });
    expect(form.problemsAt("title")).toEqual([]);
    form.touch("title");
    expect(form.problemsAt("title")).toHaveLength(1);
    form.change({ settleSeconds: { high: "", low: "soon" } });
    expect(form.problemsAt("settleSeconds.low")).toHaveLength(1);
    expect(form.problemsAt("settleSeconds.high")).toEqual([]);
    await form.save();
    expect(form.problemsAt("settleSeconds.high")).toHaveLength(1);
  });
});

test("a deleted sheet is gone with its form", async () => {
  const { shelf: one, disk } = shelf();
  const draft = one.draft("own");
  if (draft) one.hold("own", draft);
  await one.remove(OWN);
  expect([disk.sheets.size, one.own.value, one.unsaved.value]).toEqual([0, [], []]);
});
