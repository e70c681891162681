import { readdirSync, readFileSync } from "node:fs";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import ExcelJS from "exceljs";
import ICAL from "ical.js";
import type { Locator, Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { exportVisit } from "../../src/record/bundle.ts";
import { importVisits } from "../../src/record/export/bundles.ts";
import { lineOf } from "../../src/record/office/kept.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { andThen, officeVisit, upTo } from "../support/office.ts";
import { officeBook } from "../support/office-book.ts";
import { readPdf, squeezed } from "../support/pdf-pages.ts";
import { reviewVisit } from "../support/review-visit.ts";
import { co2, note } from "../support/visits.ts";
import { type App, withApp } from "./app.ts";

// The office page as a person uses it, over real IndexedDB and a real worker.

const BOOK = officeBook(30);
const AWKWARD = "demo-data/awkward";
/** Those that are visits all the same: what is odd about them is told where they are shown. */
const SOUND = ["hostile-visit.json", "altered.json"];

interface Given {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

const given = (name: string, text: string | Buffer): Given => ({
  name,
  mimeType: "application/json",
  buffer: Buffer.from(text),
});
const bundles = (visits: readonly Visit[]): Given[] =>
  visits.map((visit, place) => given(`${place}-${visit.head.id}.json`, exportVisit(visit)));
const awkward = (): Given[] =>
  readdirSync(AWKWARD)
    .filter((name) => name.endsWith(".json"))
    .map((name) => given(name, readFileSync(`${AWKWARD}/${name}`)));

async function openOffice(app: App, address = ""): Promise<void> {
  await app.page.goto(`${app.served.url}#/office${address}`);
  await app.page.locator(".office h1").waitFor();
}

/** What an element shows, once it is there. */
async function textOf(locator: Locator): Promise<string> {
  await locator.first().waitFor();
  return (await locator.allInnerTexts()).join("\n");
}

/** Chooses files, waits until they were gone through, and gives back what is told of them. */
async function takeIn(page: Page, files: readonly Given[]): Promise<string> {
  await page
    .locator("input[type=file]")
    .first()
    .setInputFiles([...files]);
  return told(page);
}

async function told(page: Page): Promise<string> {
  const words = page.locator(".taking-in > p:not(.for-ears)");
  await words.filter({ hasText: /gone through|Stopped|failed/ }).waitFor({ timeout: 60_000 });
  const text = await textOf(words);
  await page.locator(".taking-in .refused").evaluateAll((all) => {
    for (const each of all) each.setAttribute("open", "");
  });
  return text;
}

const refusals = (page: Page) => page.locator(".refused li").allInnerTexts();
const closeTold = (page: Page) => page.locator(".taking-in").getByRole("button", { name: "Close" }).click();
const count = (page: Page) => textOf(page.locator(".shown-count"));

/** All rows of a table of the office's database, read past the app. */
function stored(page: Page, table: string): Promise<{ id?: string; visitId?: string; number?: number }[]> {
  return page.evaluate(
    (name) =>
      new Promise((resolve, reject) => {
        const opening = indexedDB.open("burnerside-office");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const rows = opening.result.transaction(name).objectStore(name).getAll();
          rows.onsuccess = () => {
            opening.result.close();
            resolve(rows.result);
          };
        };
      }),
    table,
  );
}

describe("many files at once", () => {
  test("all visits are kept, each awkward file is told in one sentence, the same again changes nothing", () =>
    withApp({}, async (app) => {
      const { page } = app;
      await openOffice(app);
      expect(await page.getByText("None is in the office yet.").isVisible()).toBe(true);
      const files = [...bundles(BOOK), ...awkward()];
      expect(await takeIn(page, files)).toBe(
        `${files.length} files gone through. 32 visits new; ${files.length - 32} not taken in. The log of one of them is altered.`,
      );
      const sentences = await refusals(page);
      expect(sentences).toHaveLength(files.length - 32);
      for (const { name } of awkward().filter((file) => !SOUND.includes(file.name)))
        expect(sentences.filter((sentence) => sentence.startsWith(name))).toHaveLength(1);
      expect(await count(page)).toBe("32 visits.");
      const before = await stored(page, "revisions");
      expect(before).toHaveLength(32);
      await closeTold(page);
      expect(await takeIn(page, files)).toContain("32 known already");
      expect(await stored(page, "revisions")).toEqual(before);
      // Nothing of it is in the technician's own notebook.
      expect(await app.table("visits")).toEqual([]);
      // It is still there in a new page, and the hostile visit's words are words.
      await app.load();
      await openOffice(app);
      expect(await count(page)).toBe("32 visits.");
      expect(await page.getByRole("link", { name: "Altered (invented) (log altered)" }).count()).toBe(1);
      await openOffice(app, "/visit/hostile-1");
      await expect.poll(() => textOf(page.locator("h1"))).toContain("<script>alert(1)</script>");
      expect(await page.locator("script:not([src]), img").count()).toBe(0);
      expect(app.errors).toEqual([]);
    }));

  test("dropped files, lines of one file, and one that is huge", () =>
    withApp({}, async (app) => {
      const { page } = app;
      await openOffice(app);
      const lines = BOOK.slice(0, 3).map(lineOf);
      await page.evaluate(
        ([text = "", one = ""]) => {
          const transfer = new DataTransfer();
          transfer.items.add(new File([text], "all.jsonl"));
          transfer.items.add(new File([one], "one.json"));
          transfer.items.add(new File([new Uint8Array(33 * 1024 * 1024)], "huge.json"));
          const main = document.querySelector("main");
          const over = new DragEvent("dragover", { dataTransfer: transfer, bubbles: true, cancelable: true });
          main?.dispatchEvent(over);
          if (!over.defaultPrevented) throw new Error("The drop would leave the page.");
          main?.dispatchEvent(
            new DragEvent("drop", { dataTransfer: transfer, bubbles: true, cancelable: true }),
          );
        },
        [`${lines.join("\n")}\n${lines[0]?.slice(0, 300)}\n`, exportVisit(BOOK[5] ?? officeVisit("x", []))],
      );
      expect(await told(page)).toBe("3 files gone through. 4 visits new; 2 not taken in.");
      const sentences = await refusals(page);
      expect(sentences[0]).toMatch(/^all\.jsonl, line 4, /);
      expect(sentences[1]).toBe("huge.json: Expected a visit bundle of at most 32 MiB, found 33.0 MiB.");
    }));

  test("a whole folder, where it is chosen", () =>
    withApp({}, async (app) => {
      const folder = await mkdtemp(join(tmpdir(), "burnerside-folder-"));
      try {
        for (const { name, buffer } of bundles(BOOK.slice(0, 2))) await writeFile(join(folder, name), buffer);
        await openOffice(app);
        await app.page.getByLabel("A folder").setInputFiles(folder);
        expect(await told(app.page)).toBe("2 files gone through. 2 visits new.");
      } finally {
        await rm(folder, { recursive: true });
      }
    }));

  test("stopped in the middle the store is whole, and the rest can be taken in after", () =>
    withApp({}, async (app) => {
      const { page } = app;
      await openOffice(app);
      const many = bundles(officeBook(400));
      await page.locator("input[type=file]").first().setInputFiles(many);
      await page.getByRole("button", { name: "Stop" }).click();
      expect(await told(page)).toMatch(
        /^Stopped after [\d,]+ of 400 files; what was taken in before stays\./,
      );
      const [visits, revisions] = [await stored(page, "visits"), await stored(page, "revisions")];
      expect(visits.length).toBeLessThan(400);
      expect(revisions.map(({ visitId }) => visitId).sort()).toEqual(visits.map(({ id }) => id).sort());
      if (visits.length > 0)
        expect(await count(page)).toBe(`${visits.length} visit${visits.length === 1 ? "" : "s"}.`);
      await closeTold(page);
      await takeIn(page, many);
      expect(await count(page)).toBe("400 visits.");
      // Of four hundred rows only those near the screen are drawn.
      expect(await page.locator(".visits-table tbody tr:not(.left-out)").count()).toBeLessThan(150);
    }));

  test("taken in while a visit runs, whose work goes on", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type("high fire CO2 nine point two");
      await openOffice(app);
      await takeIn(app.page, bundles(BOOK.slice(0, 3)));
      await app.page.goto(`${app.served.url}#/boiler`);
      await app.type("CO forty");
      const said = (await app.stored()).map(({ entry }) => entry.body);
      expect(said).toMatchObject([{ quantity: "co2" }, { quantity: "co" }]);
    }));
});

describe("revisions", () => {
  const whole = officeVisit(
    "v1",
    [
      [60, co2(9.2, "high")],
      [90, note("order a gasket")],
    ],
    {},
    { title: "Mill" },
  );
  const early = upTo(whole, 1);
  const late = andThen(whole, { kind: "reviewed", by: "R. T." });
  const other = andThen(whole, { kind: "reviewed", by: "A. W." }, 30);

  test("a later one supersedes, both can be looked at; a fork is told", () =>
    withApp({}, async (app) => {
      const { page } = app;
      await openOffice(app);
      await takeIn(page, bundles([early]));
      await closeTold(page);
      expect(await takeIn(page, bundles([late]))).toContain("1 brought up to date by a later export");
      await closeTold(page);
      expect(await count(page)).toBe("1 visit.");
      await page.getByRole("link", { name: "Mill" }).click();
      await page.locator(".revisions li").nth(1).waitFor();
      const rows = () => page.locator(".revisions li").allInnerTexts();
      const [stands = "", superseded = ""] = await rows();
      expect(stands).toContain(`${late.entries.length} entries`);
      expect(stands).toContain("reviewed by R. T.");
      expect(superseded).toContain(`1 entry, ${late.entries.length - 1} fewer than what stands`);
      expect(await textOf(page.locator(".record-plate"))).toContain("order a gasket");
      await page.getByRole("button", { name: /Show the revision with 1 entry/ }).click();
      await page.locator(".record-plate", { hasText: "order a gasket" }).waitFor({ state: "detached" });
      await openOffice(app);
      expect(await takeIn(page, bundles([other]))).toContain("1 went on in two ways: both are kept");
      await openOffice(app, "/visit/v1");
      await page.getByText("This visit went on in two ways.").waitFor();
      expect(await rows()).toHaveLength(3);
    }));
});

describe("the list", () => {
  const open = (work: (page: Page, app: App) => Promise<void>) =>
    withApp({}, async (app) => {
      await app.page.setViewportSize({ width: 1024, height: 768 });
      await openOffice(app);
      await takeIn(app.page, bundles(BOOK));
      await work(app.page, app);
    });
  const titles = (page: Page) => page.locator(".visits-table tbody th").allInnerTexts();

  test("is searched, narrowed and sorted, by keyboard too", () =>
    open(async (page) => {
      await page.getByLabel("Search").fill("brühl WEISS");
      const found = BOOK.filter(
        ({ entries }) => /Brühl/.test(JSON.stringify(entries)) && /Weiß/.test(JSON.stringify(entries)),
      );
      expect(found.length).toBeGreaterThan(0);
      expect(await count(page)).toBe(`${found.length} of 30 visits.`);
      await page.getByRole("button", { name: "Show all again" }).click();
      await page.getByRole("combobox", { name: "As left" }).selectOption("Out of limits");
      for (const row of await page.locator(".visits-table tbody tr").allInnerTexts())
        expect(row).toContain("Out of limits");
      await page.getByRole("button", { name: "Show all again" }).click();
      await page.getByLabel("Since").fill("2024-06-01");
      await page.getByLabel("Until").fill("2024-12-31");
      await page.getByLabel("Not reviewed").check();
      const wanted = BOOK.filter(
        ({ head: { startedAt }, entries }) =>
          startedAt >= "2024-06" && startedAt < "2025" && entries.at(-1)?.body.kind !== "reviewed",
      );
      expect(await count(page)).toBe(`${wanted.length} of 30 visits.`);
      await page.getByRole("button", { name: "Show all again" }).click();
      const head = page.getByRole("columnheader", { name: "Title" });
      await head.getByRole("button").focus();
      await page.keyboard.press("Enter");
      expect(await head.getAttribute("aria-sort")).toBe("ascending");
      const up = await titles(page);
      await page.keyboard.press("Enter");
      expect(await head.getAttribute("aria-sort")).toBe("descending");
      expect([up[0], (await titles(page))[0]]).toEqual(["Boiler 100", "Boiler 107"]);
    }));

  test("is made of plates on a phone, sorted by a list of choices", () =>
    open(async (page) => {
      await page.setViewportSize({ width: 390, height: 844 });
      expect(await page.getByRole("columnheader").count()).toBe(0);
      await page.getByLabel("Sorted by").selectOption("Title, A first");
      expect((await titles(page))[0]).toBe("Boiler 100");
      const cell = page.locator(".visits-table td.column-technician").first();
      expect(await cell.evaluate((each) => getComputedStyle(each, "::before").content)).toBe('"Technician"');
    }));

  test("opens a visit and its appliance's history, with drift and a drawing in words", () =>
    open(async (page) => {
      await page.getByLabel("Search").fill("Boiler 103");
      await page.getByRole("link", { name: "Boiler 103" }).first().click();
      await page.getByRole("link", { name: "B-103, its history" }).click();
      await page.locator(".history svg").waitFor();
      const visits = BOOK.filter(({ head }) => head.title === "Boiler 103");
      expect(await page.locator(".history-table tbody").count()).toBe(visits.length);
      expect(await page.locator(".history svg").getAttribute("aria-label")).toMatch(
        new RegExp(`^${visits.length} visits from .* high-fire screw: .*counterclockwise`),
      );
      expect(await textOf(page.locator(".history-table tbody").first())).toMatch(/CO2 (up|down) 0\.\d %/);
      await page.goBack();
      await page.locator("h1", { hasText: "Boiler 103" }).waitFor();
    }));

  test("is at the row again when one comes back from its visit", () =>
    open(async (page) => {
      const link = page.locator(".visits-table th a").nth(15);
      const title = await textOf(link);
      await link.focus();
      await page.keyboard.press("Enter");
      await page.locator("h1", { hasText: title }).waitFor();
      await page.goBack();
      await page.locator(".visits-table").waitFor();
      await page.waitForFunction(() => document.activeElement?.closest(".visits-table") !== null);
      const at = await page.evaluate(() => ({
        text: document.activeElement?.textContent,
        top: document.activeElement?.getBoundingClientRect().top ?? -1,
      }));
      expect(at.text).toBe(title);
      expect(at.top).toBeGreaterThan(0);
      expect(at.top).toBeLessThan(768);
    }));

  test("judges anew what an older program has judged, and heals what is damaged with the file", () =>
    open(async (page, app) => {
      const [first, second] = BOOK.map(({ head }) => head.id);
      await page.evaluate(
        ([old = "", broken = ""]) =>
          new Promise<void>((resolve) => {
            const opening = indexedDB.open("burnerside-office");
            opening.onsuccess = () => {
              const writing = opening.result.transaction(["visits", "revisions"], "readwrite");
              const visits = writing.objectStore("visits");
              const revisions = writing.objectStore("revisions");
              visits.put({ id: old, judged: 0, row: { open: 99 } });
              visits.put({ id: broken });
              revisions.get([broken, 1]).onsuccess = ({ target }) => {
                const { result } = target as IDBRequest<object>;
                revisions.put({ ...result, text: "{" });
              };
              writing.oncomplete = () => {
                opening.result.close();
                resolve();
              };
            };
          }),
        [first, second],
      );
      await app.load();
      await openOffice(app);
      await page.getByText("What the office keeps of one visit is damaged and not shown").waitFor();
      expect(await count(page)).toBe("29 visits.");
      expect(await takeIn(page, bundles(BOOK))).toBe("30 files gone through. 1 visit new; 29 known already.");
      expect(await count(page)).toBe("30 visits.");
    }));

  test("is handed over: what is shown, and read back", () =>
    open(async (page, app) => {
      await page.getByLabel("Search").fill("Boiler 103");
      const wanted = BOOK.filter(({ head }) => head.title === "Boiler 103");
      const download = async (name: string) => {
        const [file] = await Promise.all([
          page.waitForEvent("download"),
          page.getByRole("button", { name }).click(),
        ]);
        await page.locator(".notice", { hasText: "Exported" }).waitFor();
        return { name: file.suggestedFilename(), bytes: await readFile(await file.path()) };
      };
      const lines = await download("Bundles (JSON Lines)");
      expect(lines.name).toMatch(/^burnerside-visits-\d{4}-\d\d-\d\d\.jsonl$/);
      const read = [...importVisits(lines.bytes.toString())].map((line) =>
        line.read.ok ? line.read.visit : null,
      );
      expect(read).toHaveLength(wanted.length);
      expect(read).toEqual(expect.arrayContaining(wanted));
      const csv: { visit_id: string }[] = parse((await download("Readings (CSV)")).bytes, {
        bom: true,
        columns: true,
      });
      expect(new Set(csv.map((row) => row.visit_id))).toEqual(new Set(wanted.map(({ head }) => head.id)));
      const workbook = new ExcelJS.Workbook();
      await workbook.xlsx.load(Uint8Array.from((await download("Workbook (XLSX)")).bytes).buffer);
      expect(workbook.worksheets[0]?.rowCount).toBe(wanted.length + 1);
      const calendar = ICAL.parse((await download("Open follow-ups (calendar)")).bytes.toString());
      expect(calendar[0]).toBe("vcalendar");
      expect(app.errors).toEqual([]);
    }));

  test("one visit is deleted after a question, then all of them", () =>
    open(async (page) => {
      await page.getByLabel("Search").fill("Boiler 103");
      await page.getByRole("link", { name: "Boiler 103" }).first().click();
      await page.getByRole("button", { name: "Delete from the office" }).click();
      await page.getByRole("button", { name: "No, keep it" }).click();
      expect(await stored(page, "visits")).toHaveLength(30);
      await page.getByRole("button", { name: "Delete from the office" }).click();
      await page.getByRole("button", { name: "Yes, delete it" }).click();
      await page.locator("h1", { hasText: "Office: visits" }).waitFor();
      expect([(await stored(page, "visits")).length, (await stored(page, "revisions")).length]).toEqual([
        29, 29,
      ]);
      await page.getByRole("button", { name: "Delete all visits of the office" }).click();
      await page.getByRole("button", { name: "Yes, delete all" }).click();
      await page.getByText("None is in the office yet.").waitFor();
      expect(await stored(page, "revisions")).toEqual([]);
    }));
});

test("one visit: printed it is its record alone, saved a PDF file of the same, exported in every kind", () =>
  withApp({}, async (app) => {
    const { page } = app;
    const visit = reviewVisit();
    await openOffice(app);
    await takeIn(page, bundles([visit]));
    await openOffice(app, `/visit/${visit.head.id}`);
    await page.locator(".record-plate").waitFor();
    const names = await app.texts(".record-section > h2");
    for (const format of ["A4", "Letter"]) {
      const paper = await readPdf(new Uint8Array(await page.pdf({ format })));
      expect(paper.pages.length).toBeLessThanOrEqual(2);
      const text = squeezed(paper.pages.map((each) => each.text).join());
      for (const name of names) expect(text).toContain(squeezed(name));
      for (const other of ["save as pdf", "delete from the office", "taken in", "follow-ups open"])
        expect(text).not.toContain(squeezed(other));
    }
    const saved = async (name: string) => {
      const [file] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name, exact: true }).click(),
      ]);
      return { name: file.suggestedFilename(), bytes: await readFile(await file.path()) };
    };
    const pdf = await saved("Save as PDF");
    expect(pdf.name).toMatch(/^burnerside-record-.*\.pdf$/);
    expect((await readPdf(new Uint8Array(pdf.bytes))).title).toMatch(/^Visit record: /);
    await page.getByRole("button", { name: "Export this visit" }).click();
    const bundle = await saved("Save: Visit bundle");
    expect(bundle.bytes.toString()).toBe(exportVisit(visit));
    for (const kind of ["Workbook", "Table (CSV)", "Columns of the table"])
      expect((await saved(`Save: ${kind}`)).bytes.length).toBeGreaterThan(100);
    expect(app.errors).toEqual([]);
  }));

test("follow-ups: overdue first, marked as done with a name, undone, and still so in a new page", () =>
  withApp({}, async (app) => {
    const { page } = app;
    await page.clock.setFixedTime(new Date("2026-12-01T09:00:00Z"));
    const visits = [
      officeVisit("a", [[60, note("come back before the heating season")]], {}, { title: "Undated" }),
      officeVisit(
        "b",
        [[60, note("replace the condensate trap gasket in two weeks")]],
        {},
        { title: "Later" },
      ),
      officeVisit(
        "c",
        [[60, note("order an ignition electrode tomorrow")]],
        { technician: "R. Thorn", appliance: "B-17" },
        { title: "Overdue" },
      ),
      officeVisit("d", [], { appliance: "b-17" }, { title: "Since", startedAt: "2026-11-28T08:00:00.000Z" }),
    ];
    await openOffice(app);
    await takeIn(page, bundles(visits));
    await page.getByRole("link", { name: "Follow-ups" }).click();
    const groups = () => page.locator(".follow-up-group h2").allInnerTexts();
    const upper = (...names: string[]) => names.map((name) => name.toUpperCase());
    await expect.poll(groups).toEqual(upper("Overdue (1)", "Due later (1)", "Without a day (1)"));
    const first = page.locator(".follow-up").first();
    expect(await textOf(first)).toContain("Order ignition electrode");
    expect(await textOf(first)).toContain("26 Nov 2026 (“tomorrow”)");
    expect(await textOf(first)).toContain("noted by R. Thorn");
    // A later visit closes nothing: it is told, and leads there.
    expect(await textOf(first)).toMatch(
      /Visited since:\s+Since,\s+28 Nov 2026\s*\. Look whether this was done\./,
    );
    expect(await page.getByText("Visited since").count()).toBe(1);
    await page.getByRole("link", { name: "Since, 28 Nov 2026" }).waitFor();
    await page.getByRole("button", { name: /^Mark as done: Order ignition electrode/ }).click();
    await page.getByText("First say who marks it as done.").waitFor();
    await page.getByLabel("Your name").fill("M. Office");
    await page.getByRole("button", { name: /^Mark as done: Order ignition electrode/ }).click();
    await page.getByText("Done: M. Office").waitFor();
    expect(await page.getByText("Visited since").count()).toBe(0);
    expect(await groups()).toEqual(upper("Due later (1)", "Without a day (1)", "Done (1)"));
    await app.load();
    await openOffice(app, "/follow-ups");
    // Who marked last need not say his name again.
    await expect.poll(() => page.getByLabel("Your name").inputValue()).toBe("M. Office");
    await page.getByRole("button", { name: /^Not done after all/ }).click();
    await page.locator(".follow-up-group h2", { hasText: /overdue/i }).waitFor();
    expect(await groups()).toEqual(upper("Overdue (1)", "Due later (1)", "Without a day (1)"));
  }));

test("it is reached from the start, and nothing of it is loaded before", () =>
  withApp({}, async (app) => {
    const loaded = () =>
      app.page.evaluate(() => performance.getEntriesByType("resource").map(({ name }) => name));
    await app.page.waitForFunction(() =>
      performance.getEntriesByType("resource").some(({ name }) => /\/(boiler|visit)-/.test(name)),
    );
    expect((await loaded()).filter((name) => /office/.test(name))).toEqual([]);
    await app.page.getByRole("link", { name: "Office: take in visits of many" }).click();
    await app.page.locator("h1", { hasText: "Office: visits" }).waitFor();
    expect((await loaded()).filter((name) => /office/.test(name))).not.toEqual([]);
    await app.page.getByRole("link", { name: "To the start" }).click();
    await app.page.locator(".start").waitFor();
  }));
