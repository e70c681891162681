import { readFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import { importVisit } from "../../src/record/bundle.ts";
import { type App, withApp } from "./app.ts";

const SHEET = "demo-data/sheets/demo-35.json";
const TABLES = ["visits", "entries", "sheets"];

const all = async (app: App): Promise<{ entries?: unknown }> =>
  Object.fromEntries(await Promise.all(TABLES.map(async (name) => [name, await app.table(name)])));

/** Starts a visit with one reading, exports it by the button, and goes back to the start. */
async function exported(app: App): Promise<string> {
  await app.startVisit();
  await app.type("high fire CO2 nine point two");
  const [download] = await Promise.all([
    app.page.waitForEvent("download"),
    app.page.getByRole("button", { name: "Export visit" }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(
    /^burnerside-visit-[a-z0-9-]+-\d{4}-\d\d-\d\d-[0-9a-f]{8}\.json$/,
  );
  const text = await readFile(await download.path(), "utf8");
  await app.page.getByRole("button", { name: "To the start" }).click();
  await app.page.locator(".nameplate").waitFor();
  return text;
}

test("an exported visit is sound and holds what was logged", () =>
  withApp({}, async (app) => {
    const result = importVisit(await exported(app));
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(result.visit.entries).toEqual((await app.stored()).map((row) => row.entry));
    expect(result.visit.head.sheet?.id).toBe("demo-35");
  }));

test("a visit exported here comes in elsewhere, whole, and goes on", async () => {
  const text = await withApp({}, exported);
  await withApp({}, async (app) => {
    expect(await app.bringIn("visit.json", text)).toEqual([expect.stringMatching(/^Visit kept: /)]);
    await app.page.getByRole("button", { name: "Go on" }).click();
    await app.page.locator(".face").waitFor();
    expect(await app.text(".large")).toBe("9.2 %");
    await app.type("CO forty");
    expect(await app.text(".line >> nth=0")).toContain("CO 40 ppm");
  });
});

test("an imported sheet can be chosen, before and after a reload", () =>
  withApp({}, async (app) => {
    const sheet = { ...JSON.parse(await readFile(SHEET, "utf8")), id: "mine", title: "My own sheet" };
    expect(await app.bringIn("mine.json", JSON.stringify(sheet))).toEqual([
      "Limits sheet kept: My own sheet.",
    ]);
    await app.load();
    await app.startVisit("My own sheet");
    expect(await app.text(".visit-head")).toContain("My own sheet");
  }));

describe("a bad file: its problems, and nothing stored changes", () => {
  test("sheets and bundles", () =>
    withApp({}, async (app) => {
      const bundle = JSON.parse(await exported(app));
      const sheet = JSON.parse(await readFile(SHEET, "utf8"));
      const before = await all(app);
      expect(before.entries).not.toEqual([]);

      const cases: [name: string, content: unknown, sentence: RegExp][] = [
        ["no-title.json", { ...sheet, title: undefined }, /^no-title\.json, title: Expected .*\.$/],
        [
          "settle.json",
          { ...sheet, settleSeconds: { high: -1, low: 60 } },
          /^settle\.json, settleSeconds\.high \(Settling, high fire\): .*-1/,
        ],
        [
          "gap.json",
          { ...bundle, entries: bundle.entries.map((entry: object) => ({ ...entry, seq: 5 })) },
          /^gap\.json, entries\[0\]\.seq \(entry 1 of the visit\): /,
        ],
        [
          "later.json",
          { ...bundle, format: "burnerside-visit/9" },
          /^later\.json, format: .*burnerside-visit\/9/,
        ],
      ];
      for (const [name, content, sentence] of cases) {
        expect(await app.bringIn(name, JSON.stringify(content))).toEqual([expect.stringMatching(sentence)]);
      }
      expect(await app.bringIn("torn.json", JSON.stringify(sheet).slice(0, 200))).toEqual([
        expect.stringMatching(/^torn\.json, source: Line 1, column 201: /),
      ]);
      // Sound, but here already.
      expect(await app.bringIn("twice.json", JSON.stringify(bundle))).toEqual([
        expect.stringMatching(/already/),
      ]);
      expect(await all(app)).toEqual(before);
    }));

  test("two problems are two sentences", () =>
    withApp({}, async (app) => {
      const sheet = JSON.parse(await readFile(SHEET, "utf8"));
      const bad = { ...sheet, title: "", closing: ["bell"] };
      expect(await app.bringIn("two.json", JSON.stringify(bad))).toHaveLength(2);
    }));
});

test("an entry that was damaged on the disk is named, and the rest can still be used", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    const [row] = await app.stored();
    if (!row) throw new Error("Expected a stored entry.");
    await app.overwrite("entries", { ...row, entry: { ...row.entry, confidence: "high" } });
    await app.load();
    const [sentence = ""] = await app.texts(".notice li");
    expect(sentence).toMatch(/^Visit [0-9a-f]{32}, entry 0 cannot be read: confidence Expected .*"high"/);
    await app.startVisit();
    await app.type("high fire CO2 nine point four");
    expect(await app.text(".large")).toBe("9.4 %");
  }));
