import { readFile } from "node:fs/promises";
import ExcelJS from "exceljs";
import ICAL from "ical.js";
import { expect, test } from "vitest";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import { readCsvw } from "../record/export/read-csvw.ts";
import { longVisit } from "../support/long-visit.ts";
import { type App, withApp } from "./app.ts";

// A real visit handed over in every kind, each file read by a reader that shares no code with what wrote it.

const choice = (app: App) => app.page.locator(".export-choice");
const kinds = (app: App) => app.texts(".export-choice strong");

/** Saves a visit as one kind: the file's name and its bytes, once it was told. */
async function saved(app: App, kind: string): Promise<[name: string, bytes: Buffer]> {
  const [download] = await Promise.all([
    app.page.waitForEvent("download"),
    choice(app)
      .getByRole("button", { name: `Save: ${kind}` })
      .click(),
  ]);
  const name = download.suggestedFilename();
  await choice(app).getByText(`Saved: ${name}`).waitFor();
  return [name, await readFile(await download.path())];
}

/** Looks a visit over that was just worked on, and opens what it can be handed over as. */
async function openChoice(app: App): Promise<void> {
  await app.page.getByRole("button", { name: "Look it over" }).click();
  await app.page.getByRole("button", { name: "Export visit" }).click();
  await choice(app).getByRole("button", { name: "Save: Visit bundle" }).waitFor();
}

test("each kind is saved, and read by others", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("static gas pressure eighteen point five millibar");
    await app.type("high fire CO2 nine point two, CO forty");
    await app.type("no, CO thirty");
    await app.type("note order a condensate trap gasket and come back in two weeks");
    await openChoice(app);
    expect(await kinds(app)).toEqual([
      "Visit bundle",
      "Workbook",
      "Table (CSV)",
      "Columns of the table",
      "Follow-ups (calendar)",
    ]);

    const [bundleName, bundle] = await saved(app, "Visit bundle");
    const read = importVisit(bundle.toString());
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.visit.entries).toEqual((await app.stored()).map(({ entry }) => entry));
    expect(bundleName).toMatch(/^burnerside-visit-[a-z0-9-]+\.json$/);

    const [csvName, csv] = await saved(app, "Table (CSV)");
    const [columnsName, columns] = await saved(app, "Columns of the table");
    expect(columnsName).toBe(`${csvName}-metadata.json`);
    const rows = readCsvw(csv, columns.toString());
    expect(
      rows.map(({ quantity, value, unit, status, verdict }) => [quantity, value, unit, status, verdict]),
    ).toEqual([
      ["gas-pressure-inlet", 18.5, "mbar", "standing", "pass"],
      ["co2", 9.2, "%", "standing", "pass"],
      ["co", 40, "[ppm]", "replaced", null],
      ["co", 30, "[ppm]", "standing", "pass"],
    ]);
    expect(new Set(rows.map(({ visit_id }) => visit_id))).toEqual(new Set([read.visit.head.id]));
    expect(JSON.parse(columns.toString()).url).toBe(csvName);

    const [, workbook] = await saved(app, "Workbook");
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(workbook as unknown as ExcelJS.Buffer);
    expect(book.getWorksheet("Readings")?.actualRowCount).toBe(1 + rows.length);

    const [icsName, calendar] = await saved(app, "Follow-ups (calendar)");
    expect(icsName).toMatch(/^burnerside-follow-ups-[a-z0-9-]+\.ics$/);
    const parts = new ICAL.Component(ICAL.parse(calendar.toString())).getAllSubcomponents();
    expect(parts.map((part) => part.getFirstPropertyValue("summary"))).toContain(
      "Order condensate trap gasket",
    );
    for (const part of parts)
      expect(part.getFirstPropertyValue("description")).toContain("order a condensate trap gasket");

    expect(app.errors).toEqual([]);
    expect(app.requests.every((url) => url.startsWith(app.served.url) || url.startsWith("blob:"))).toBe(true);
  }));

test("by the keyboard, from the list of visits; without follow-ups no calendar is offered", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    await app.page.getByRole("button", { name: "To the start" }).click();
    const open = app.page.getByRole("button", { name: /^Export: / });
    await open.focus();
    await app.page.keyboard.press("Enter");
    await app.page.locator(".export-choice button:focus").waitFor();
    expect(await kinds(app)).not.toContain("Follow-ups (calendar)");
    expect(await open.getAttribute("aria-expanded")).toBe("true");
    const [download] = await Promise.all([
      app.page.waitForEvent("download"),
      app.page.keyboard.press("Enter"),
    ]);
    expect(download.suggestedFilename()).toMatch(/\.json$/);
    await choice(app).getByRole("button", { name: "Close" }).press("Enter");
    await choice(app).waitFor({ state: "detached" });
    expect(await open.evaluate((button) => button === document.activeElement)).toBe(true);
    // Headless Chromium on Linux has no share sheet.
    await open.press("Enter");
    await choice(app).getByRole("button", { name: "Save: Visit bundle" }).waitFor();
    expect(
      await choice(app)
        .getByRole("button", { name: /^Share/ })
        .count(),
    ).toBe(0);
    // Another screen begins without it.
    await app.page.getByRole("button", { name: /^Look it over/ }).click();
    await app.page.locator(".said-row").first().waitFor();
    expect(await choice(app).count()).toBe(0);
    expect(app.errors).toEqual([]);
  }));

test("a large workbook is packed without workers made of text, which a server's policy may not let in", () =>
  withApp({}, async (app) => {
    const workers: string[] = [];
    app.page.on("worker", (worker) => workers.push(worker.url()));
    const visit = longVisit(2000);
    await app.bringIn("long.json", exportVisit(visit));
    await app.page.getByRole("button", { name: /^Export: / }).click();
    const [, workbook] = await saved(app, "Workbook");
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(workbook as unknown as ExcelJS.Buffer);
    const readings = visit.entries.filter(({ body }) => body.kind === "reading").length;
    expect(book.getWorksheet("Readings")?.actualRowCount).toBeGreaterThan(readings);
    expect(workers).toEqual([expect.stringMatching(/\/workbook\.worker-.*\.js$/)]);
    expect(app.errors).toEqual([]);
  }));

test("what the platform's share sheet takes is shared; a sheet closed again says nothing, a refusal does", () =>
  withApp({}, async (app) => {
    // A platform that shares tables and calendars, but no workbooks.
    await app.page.addInitScript(() => {
      const shared: string[] = [];
      Object.assign(globalThis, { shared, answer: "" });
      const takes = (file: File) => file.type.startsWith("text/");
      Object.assign(Navigator.prototype, {
        canShare: ({ files = [] }: ShareData) => files.every(takes),
        share: async ({ files = [] }: ShareData) => {
          const answer: string = Reflect.get(globalThis, "answer");
          if (answer !== "") throw new DOMException("no", answer);
          for (const file of files) shared.push(`${file.name} ${(await file.text()).slice(0, 9)}`);
        },
      });
    });
    await app.load();
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    await openChoice(app);
    const share = choice(app).getByRole("button", { name: /^Share: / });
    expect(await share.evaluateAll((all) => all.map((button) => button.getAttribute("aria-label")))).toEqual([
      "Share: Table (CSV)",
    ]);
    await share.click();
    await choice(app)
      .getByText(/^Handed over: burnerside-readings-.*\.csv$/)
      .waitFor();
    expect(await app.page.evaluate(() => Reflect.get(globalThis, "shared"))).toEqual([
      expect.stringMatching(/^burnerside-readings-.*\.csv visit_tit$/),
    ]);
    await app.page.evaluate(() => Reflect.set(globalThis, "answer", "AbortError"));
    await share.click();
    await choice(app).locator('[role="status"]:empty').waitFor({ state: "attached" });
    await app.page.evaluate(() => Reflect.set(globalThis, "answer", "NotAllowedError"));
    await share.click();
    expect(await app.text('.export-choice [role="alert"]')).toBe(
      "The file is ready, but the share sheet did not open: tap Share once more, or save it.",
    );
    expect(app.errors).toEqual([]);
  }));
