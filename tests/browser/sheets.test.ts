import { readFile } from "node:fs/promises";
import type { Locator } from "playwright-core";
import { expect, test } from "vitest";
import { readSheet } from "../../src/record/sheet-file.ts";
import type { Sheet } from "../../src/visit/sheet.ts";
import { type App, withApp } from "./app.ts";

const DEMO = "Demo wall-hung 35 kW, natural gas";
const GAS = "fuels.natural-gas";

const stored = async (app: App) => (await app.table("sheets")) as Sheet[];
const field = (app: App, path: string): Locator => app.page.locator(`[id="field-${path}"]`);
const button = (app: App, name: string) => app.page.getByRole("button", { name, exact: true });
const fill = async (app: App, texts: Readonly<Record<string, string>>) => {
  for (const [path, text] of Object.entries(texts)) await field(app, path).fill(text);
};

async function toSheets(app: App): Promise<void> {
  await button(app, "Make, edit and copy sheets").click();
  await app.page.locator(".sheets-page").waitFor();
}

/** What is said at a field, after the field was left. */
async function saidAt(app: App, path: string): Promise<string> {
  await field(app, path).blur();
  return (await app.texts(`[id="notes-field-${path}"]`)).join(" ");
}

/** What an export button hands over: the file's name, which is told in its row, and its text. */
async function exported(app: App, name: string): Promise<[name: string, text: string]> {
  const [download] = await Promise.all([app.page.waitForEvent("download"), button(app, name).click()]);
  const row = app.page.locator(".rows li").filter({ has: button(app, name) });
  await row
    .getByRole("status")
    .getByText(`Saved: ${download.suggestedFilename()}`, { exact: true })
    .waitFor();
  return [download.suggestedFilename(), await readFile(await download.path(), "utf8")];
}

test("a sheet is made: wrong, mended, saved, and a visit is judged by it", () =>
  withApp({}, async (app) => {
    const { page } = app;
    await toSheets(app);
    await button(app, "Make a sheet").click();
    // The source stands first, with the day.
    expect(await app.page.locator(".sheet-part h2").first().textContent()).toMatch(/source/i);
    expect(await field(app, "source.enteredOn").inputValue()).toMatch(/^\d{4}-\d\d-\d\d$/);
    // Nothing is held against somebody who has typed nothing yet.
    expect(await page.locator(".field-problem, .field-doubt").count()).toBe(0);
    expect(await app.text("#save-says")).toBe("Cannot be saved yet: 11 things are missing or wrong.");

    await fill(app, {
      "source.document": "Installation manual",
      "source.edition": "4",
      "source.page": "52",
      "source.enteredBy": "ab",
      title: "Wall-hung boiler of the mill",
      [`${GAS}.high.co2.min`]: "9,9",
      [`${GAS}.high.co2.max`]: "9.4",
      [`${GAS}.high.co.max`]: "1,500",
      "adjusters.high.largestStepTurns": "1/4",
      "adjusters.low.largestStepTurns": "0,1",
      "settleSeconds.high": "60",
      "settleSeconds.low": "soon",
    });
    // Wrong, each said where it is, and marked for those who cannot see it.
    expect(await saidAt(app, `${GAS}.high.co2`)).toContain("The lower end is above the upper one.");
    expect(await saidAt(app, `${GAS}.high.co.max`)).toContain(
      "Can be read in two ways: write 1500, or 1.5000.",
    );
    expect(await saidAt(app, "settleSeconds.low")).toContain('Expected a number, found "soon".');
    expect(await field(app, "settleSeconds.low").getAttribute("aria-invalid")).toBe("true");
    expect(await app.text(".sheet-preview")).toContain("Not readable yet");

    // Saving is refused with a reason, and leads to what is missing; from there to the field.
    await button(app, "Save sheet").click({ force: true });
    expect(await stored(app)).toEqual([]);
    expect(await page.evaluate(() => document.activeElement?.className)).toContain("sheet-problems");
    expect(await app.text("#problems-heading")).toMatch(/^7 things are missing or wrong$/i);
    await page.getByRole("link", { name: "Settling, low fire" }).click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("field-settleSeconds.low");
    await page.getByRole("link", { name: "Low-fire screw, which way raises CO2" }).click();
    await page.keyboard.press("Space");
    expect(await saidAt(app, "adjusters.low.percentPerTurn")).toContain("Not filled in yet.");

    // Mended.
    await fill(app, {
      [`${GAS}.high.co2.min`]: "9",
      [`${GAS}.high.co.max`]: "100",
      "settleSeconds.low": "60",
    });
    await page
      .getByRole("group", { name: /CO2 rises/ })
      .first()
      .getByText("counterclockwise")
      .click();
    for (const box of await page.getByText("the paper gives no figure").all()) await box.click();
    expect(await app.text("#problems-heading")).toMatch(/^nothing is missing$/i);
    // Doubts are told and hinder nothing.
    expect(await app.text(".sheet-problems")).toContain("No CO2 for low fire");
    expect(await app.text(".sheet-preview")).toContain("High fire: CO2 9 to 9.4 %, CO up to 100 ppm.");
    expect(await app.text("#save-says")).toBe("Everything that a sheet needs is there.");
    await button(app, "Save sheet").click();
    await page.locator(".sheets-page").waitFor();
    expect(await stored(app)).toMatchObject([
      {
        title: "Wall-hung boiler of the mill",
        fuels: { "natural-gas": { high: { co2: { min: 9, max: 9.4 }, co: { max: 100 } }, low: {} } },
        adjusters: { high: { co2Rises: "counterclockwise", percentPerTurn: null, largestStepTurns: 0.25 } },
      },
    ]);

    await button(app, "To the start").click();
    await app.startVisit("Wall-hung boiler of the mill");
    // 9.5 is in limits by the demo's sheet and by most, not by this one.
    await app.type("high fire CO2 nine point five, CO forty");
    expect(await app.text(".verdict >> nth=0")).toMatch(/Out of limits\s+limit 9 to 9.4 %/);
    expect(await app.text(".verdict >> nth=1")).toMatch(/In limits\s+limit up to 100 ppm/);
    expect(app.errors).toEqual([]);
  }));

test("a change of a sheet changes no visit that began with it", () =>
  withApp({}, async (app) => {
    const { page } = app;
    const own = {
      ...JSON.parse(await readFile("demo-data/sheets/demo-35.json", "utf8")),
      id: "own",
      title: "Own",
    };
    await app.bringIn("own.json", JSON.stringify(own));
    await app.startVisit("Own");
    await app.type("high fire CO2 nine point two");
    await button(app, "To the start").click();
    await toSheets(app);
    await button(app, "Edit Own").click();
    await fill(app, { [`${GAS}.high.co2.min`]: "9,3" });
    await button(app, "Save sheet").click();
    await page.locator(".sheets-page").waitFor();
    expect(await stored(app)).toMatchObject([{ fuels: { "natural-gas": { high: { co2: { min: 9.3 } } } } }]);
    await button(app, "To the start").click();
    await page.getByRole("button", { name: "Go on: Own" }).click();
    expect(await app.text(".verdict >> nth=0")).toMatch(/In limits\s+limit 8.5 to 9.5 %/);
    // The next one begins with the new limits.
    await button(app, "To the start").click();
    await page.locator(".start").waitFor();
    await app.startVisit("Own");
    await app.type("high fire CO2 nine point two");
    expect(await app.text(".verdict >> nth=0")).toMatch(/Out of limits\s+limit 9.3 to 9.5 %/);
  }));

test("a copy of a demo sheet needs a source of its own, and goes out and in again as it was", async () => {
  const [name, text] = await withApp({}, async (app) => {
    await toSheets(app);
    expect(await app.text(".demo-mark")).toBe("Invented demo: not for real appliances.");
    expect(await button(app, `Edit ${DEMO}`).count()).toBe(0);
    await button(app, `Copy ${DEMO}`).click();
    await app.page.locator(".sheet-form").waitFor();
    expect(await field(app, "title").inputValue()).toBe(`Copy of ${DEMO}`);
    expect(await field(app, "source.document").inputValue()).toBe("");
    expect(await app.text(".sheet-preview")).toContain("High fire: CO2 8.5 to 9.5 %, CO up to 150 ppm.");
    expect(await app.text("#save-says")).toBe("Cannot be saved yet: 2 things are missing or wrong.");
    await fill(app, {
      "source.document": "Manual",
      "source.enteredBy": "cd",
      title: "Kessel Straße 1 / Süd",
    });
    await button(app, "Save sheet").click();
    await app.page.locator(".sheets-page").waitFor();
    return exported(app, "Export Kessel Straße 1 / Süd");
  });
  expect(name).toBe("limits-sheet-kessel-straße-1-süd.json");
  const read = readSheet(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));

  await withApp({}, async (app) => {
    await toSheets(app);
    expect(await app.bringIn(name, text)).toEqual(["Limits sheet kept: Kessel Straße 1 / Süd."]);
    expect(await stored(app)).toEqual([read.sheet]);
    expect((await exported(app, "Export Kessel Straße 1 / Süd"))[1]).toBe(text);

    // The same id with something else in it is asked about.
    const other = JSON.stringify({ ...read.sheet, title: "Other" });
    const bring = () =>
      app.page
        .locator("input[type=file]")
        .setInputFiles({ name: "other.json", mimeType: "application/json", buffer: Buffer.from(other) });
    await bring();
    await app.page.getByRole("alertdialog", { name: "This sheet is here already" }).waitFor();
    await button(app, "Leave it as it is").click();
    expect(await stored(app)).toEqual([read.sheet]);
    await bring();
    await button(app, "Keep both").click();
    await app.page.locator(".notice-done").waitFor();
    const both = await stored(app);
    expect(both.map(({ title }) => title).sort()).toEqual(["Kessel Straße 1 / Süd", "Other"]);
    expect(new Set(both.map(({ id }) => id)).size).toBe(2);
  });
});

test("what was typed is there again after a reload, and is discarded or deleted only when asked for", () =>
  withApp({}, async (app) => {
    const { page } = app;
    await toSheets(app);
    await button(app, "Make a sheet").click();
    await fill(app, { title: "Half a sheet", [`${GAS}.high.co2.min`]: "8,5" });
    await button(app, "Add propane").click();
    await button(app, "To the sheets").click();
    expect(await app.text(".rows >> nth=0")).toContain("Half a sheet");
    expect(await stored(app)).toEqual([]);

    await page.reload();
    await button(app, "Go on with the new sheet").click();
    expect(await field(app, "title").inputValue()).toBe("Half a sheet");
    expect(await field(app, `${GAS}.high.co2.min`).inputValue()).toBe("8,5");
    expect(await field(app, "fuels.propane.high.co2.min").count()).toBe(1);
    await button(app, "Discard changes").click();
    await button(app, "No, keep it").click();
    await button(app, "Discard changes").click();
    await button(app, "Yes, discard it").click();
    await page.locator(".sheets-page").waitFor();
    expect(await button(app, "Make a sheet").count()).toBe(1);

    const own = {
      ...JSON.parse(await readFile("demo-data/sheets/demo-35.json", "utf8")),
      id: "own",
      title: "Own",
    };
    await app.bringIn("own.json", JSON.stringify(own));
    await button(app, "Delete Own").click();
    expect(await app.text(".question")).toMatch(/Visits that started with it keep their own copy/);
    await button(app, "No, keep it").click();
    expect(await stored(app)).toHaveLength(1);
    await button(app, "Delete Own").click();
    await button(app, "Yes, delete it").click();
    await expect.poll(() => stored(app)).toEqual([]);
  }));

test("closing checks are moved by keyboard, and the focus goes with them", () =>
  withApp({}, async (app) => {
    const { page } = app;
    await toSheets(app);
    await button(app, "Make a sheet").click();
    const order = () => app.texts("ol.closing > li > span");
    await app.page.locator("ol.closing").waitFor();
    expect((await order())[1]).toBe("2. Test mode off");
    await button(app, "Move “Test mode off” down").focus();
    await page.keyboard.press("Enter");
    expect((await order()).slice(1, 3)).toEqual(["2. Manometer removed", "3. Test mode off"]);
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
    expect(await focused()).toBe("Move “Test mode off” down");
    await button(app, "Move “Manometer removed” up").press("Enter");
    expect((await order())[0]).toBe("1. Manometer removed");
    // It can go no further up: the button beside it has the focus.
    expect(await focused()).toBe("Move “Manometer removed” down");
    await button(app, "Leave out “Panel back on”").click();
    expect(await order()).toHaveLength(6);
    await button(app, "Take in “Panel back on”").click();
    expect((await order())[6]).toBe("7. Panel back on");
  }));
