import { readFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import { reading, visitOf } from "../app/build.ts";
import { type App, withApp } from "./app.ts";
import { withMicrophone } from "./microphone.ts";

const DEMO = "demo-data/sheets/demo-35.json";
const DUAL = "Demo floor-standing 50 kW, natural gas or propane";

const heads = async (app: App) =>
  (await app.table("visits")) as {
    fuel: string;
    units: string;
    title: string;
    sheet: { id: string } | null;
  }[];

const go = (app: App) => app.page.getByRole("button", { name: "Go", exact: true });
const row = (app: App, title: string) => app.page.locator(".sheet-row", { hasText: title }).locator("input");

/** Types a sentence on the start page, and gives back what was answered. */
async function sentence(app: App, text: string): Promise<string> {
  await app.page.getByLabel("In one sentence").fill(text);
  await app.page.getByLabel("In one sentence").press("Enter");
  await app.page.locator(".start-said", { hasText: `“${text}”` }).waitFor();
  return app.text(".start-said b");
}

describe("three taps: sheet, gas, go", () => {
  test("nothing is chosen unasked, and “go” waits for what is missing", () =>
    withApp({}, async (app) => {
      const { page } = app;
      expect(await page.locator("input[name=sheet]:checked").count()).toBe(0);
      expect(await app.text("#go-says")).toBe("First choose a sheet.");
      await go(app).click({ force: true });
      expect(await heads(app)).toEqual([]);

      await row(app, DUAL).check();
      expect(await page.locator("input[name=fuel]:checked").count()).toBe(0);
      expect(await app.text("#go-says")).toBe("Now choose the gas.");
      expect(await go(app).getAttribute("aria-disabled")).toBe("true");
      await page.locator(".gas", { hasText: "Propane" }).click();
      await go(app).click();
      await page.locator(".face").waitFor();
      expect(await heads(app)).toMatchObject([{ fuel: "propane", sheet: { id: "demo-50-dual-fuel" } }]);
    }));

  test("a sheet with one gas needs two; the last used one stands first and is chosen the next time", () =>
    withApp({}, async (app) => {
      const { page } = app;
      await row(app, "Demo wall-hung 35 kW").check();
      expect(await app.text(".only-gas")).toBe("Natural gas, the only gas of this sheet");
      await page.locator("input[name=units][value=si]").check();
      await go(app).click();
      await page.locator(".face").waitFor();
      expect(await heads(app)).toMatchObject([
        { fuel: "natural-gas", units: "si", sheet: { id: "demo-35" } },
      ]);

      await page.getByRole("button", { name: "To the start" }).click();
      await page.locator(".start").waitFor();
      expect((await app.texts(".sheet-row"))[0]).toMatch(
        /^\s*sheet\s+2\s+Demo wall-hung 35 kW, natural gas\s+Used last/i,
      );
      expect(await row(app, "Demo wall-hung 35 kW").isChecked()).toBe(true);
      expect(await page.locator("input[name=units][value=si]").isChecked()).toBe(true);
      await go(app).click();
      await page.locator(".face").waitFor();
      expect(await heads(app)).toHaveLength(2);
    }));

  test("a propane sheet is never chosen unasked, not even the last used", () =>
    withApp({}, async (app) => {
      const { page } = app;
      await row(app, "24 kW, propane").check();
      expect(await app.text(".only-gas")).toBe("Propane, the only gas of this sheet");
      await go(app).click();
      await page.locator(".face").waitFor();
      expect(await heads(app)).toMatchObject([{ fuel: "propane" }]);
      await page.getByRole("button", { name: "To the start" }).click();
      await page.locator(".start").waitFor();
      expect((await app.texts(".sheet-row"))[0]).toContain("24 kW, propane");
      expect(await page.locator("input[name=sheet]:checked").count()).toBe(0);
    }));

  test("by keyboard alone", () =>
    withApp({}, async (app) => {
      const { page } = app;
      await page.locator("input[name=sheet]").first().focus();
      // Arrows go through the sheets, as radio buttons do; the third is for both gases.
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("ArrowDown");
      expect(await row(app, DUAL).isChecked()).toBe(true);
      await page.locator("input[name=fuel]").first().focus();
      await page.keyboard.press("Space");
      await page.keyboard.press("Tab");
      await page.keyboard.press("Enter");
      await page.locator(".face").waitFor();
      expect(await heads(app)).toMatchObject([{ fuel: "natural-gas", sheet: { id: "demo-50-dual-fuel" } }]);
    }));

  test("more than eight sheets get a line to search", () =>
    withApp({}, async (app) => {
      const demo = JSON.parse(await readFile(DEMO, "utf8"));
      for (let at = 1; at <= 6; at += 1) {
        const own = { ...demo, id: `own-${at}`, title: `Boiler ${at}, Wärmezentrale Nordstraße` };
        expect(await app.bringIn("own.json", JSON.stringify(own))).toHaveLength(1);
      }
      // Eight of nine, and none; the rest behind a tap.
      expect(await app.texts(".sheet-row")).toHaveLength(9);
      await app.page.getByRole("button", { name: "All 9 sheets" }).click();
      expect(await app.texts(".sheet-row")).toHaveLength(10);
      await app.page.getByLabel("Look for").fill("warme 4");
      expect(await app.texts(".sheet-row strong")).toEqual([
        "Boiler 4, Wärmezentrale Nordstraße",
        "Without a sheet",
      ]);
      await row(app, "Boiler 4").check();
      await go(app).click();
      await app.page.locator(".face").waitFor();
      expect(await heads(app)).toMatchObject([{ sheet: { id: "own-4" } }]);
    }));
});

describe("one sentence", () => {
  test("typed, it starts the visit", () =>
    withApp({}, async (app) => {
      // Rows: 1 the propane one, 2 the one of 35 kW, 3 the one for both gases.
      await app.page.getByLabel("In one sentence").fill("sheet three, natural gas, go");
      await app.page.getByLabel("In one sentence").press("Enter");
      await app.page.locator(".face").waitFor();
      expect(await heads(app)).toMatchObject([{ fuel: "natural-gas", sheet: { id: "demo-50-dual-fuel" } }]);
    }));

  test("what it lacks is asked for, and what it has is chosen on the page", () =>
    withApp({}, async (app) => {
      const { page } = app;
      expect(await sentence(app, "floor standing go")).toBe(`Sheet 3, ${DUAL}. Which gas?`);
      expect(await row(app, DUAL).isChecked()).toBe(true);
      expect(await heads(app)).toEqual([]);
      expect(await sentence(app, "propane")).toBe(`Sheet 3, ${DUAL}; propane. Say “go” to start.`);
      expect(await page.locator("input[name=fuel][value=propane]").isChecked()).toBe(true);
      expect(await heads(app)).toEqual([]);
      await page.getByLabel("In one sentence").fill("go");
      await page.getByLabel("In one sentence").press("Enter");
      await page.locator(".face").waitFor();
      expect(await heads(app)).toMatchObject([{ fuel: "propane" }]);
    }));

  test.each([
    ["sheet nine, natural gas, go", "There is no sheet 9: they go from 1 to 3."],
    ["sheet two, propane, go", "Sheet 2 has no limits for propane. Which gas?"],
    ["castle, natural gas, go", "No sheet is called “castle”."],
    ["wall hung go", "Which sheet: 1 or 2?"],
  ])("%s: starts nothing", (text, answer) =>
    withApp({}, async (app) => {
      expect(await sentence(app, text)).toBe(answer);
      expect(await heads(app)).toEqual([]);
    }),
  );

  test("said, it starts the visit, and the ear goes on at the boiler", () =>
    withMicrophone(
      { phrases: ["sheet three, natural gas, go", "high fire CO2 nine point two"], before: 10, pause: 14 },
      async (app) => {
        await app.keepMicrophones();
        await app.page.getByRole("button", { name: "Or say it" }).click();
        await app.page.locator(".ear-button.ear-listening").waitFor({ timeout: 60_000 });
        await app.page.locator(".face").waitFor({ timeout: 60_000 });
        expect(await heads(app)).toMatchObject([{ fuel: "natural-gas", sheet: { id: "demo-50-dual-fuel" } }]);
        await app.page.locator(".ear.ear-listening").waitFor({ timeout: 60_000 });
        // The start page's microphone was let go.
        expect(await app.tracks()).toEqual(["ended", "live"]);
        expect(app.errors).toEqual([]);
      },
    ));

  test("said in parts, each part is asked for aloud, and only “go” starts", () =>
    withMicrophone(
      { phrases: ["sheet three", "natural gas", "start the visit"], before: 10, pause: 4 },
      async (app) => {
        await app.page.getByRole("button", { name: "Or say it" }).click();
        await app.page.locator(".start-said", { hasText: "Which gas?" }).waitFor({ timeout: 60_000 });
        expect(await row(app, DUAL).isChecked()).toBe(true);
        await app.page.locator(".start-said", { hasText: "to start." }).waitFor({ timeout: 60_000 });
        expect(await heads(app)).toEqual([]);
        await app.page.locator(".face").waitFor({ timeout: 60_000 });
        expect(await heads(app)).toMatchObject([{ fuel: "natural-gas" }]);
        expect((await app.spoken()).slice(0, 2)).toEqual([
          expect.stringMatching(/^Sheet three, .*Which gas\?$/),
          expect.stringMatching(/; natural gas\. Say go to start\.$/),
        ]);
      },
    ));
});

describe("earlier visits", () => {
  const visit = (at: number) => {
    const one = visitOf(reading());
    const startedAt = new Date(Date.UTC(2026, 0, at, 9)).toISOString();
    return { ...one, head: { ...one.head, id: `v${at}`, title: `Place ${at}`, startedAt } };
  };

  test("say how they stand; the newest ten, and more on a tap", () =>
    withApp({}, async (app) => {
      for (let at = 1; at <= 12; at += 1)
        expect(await app.bringIn("visit.json", exportVisit(visit(at)))).toEqual([`Visit kept: Place ${at}.`]);
      const titles = () => app.texts(".visit-rows strong");
      expect(await titles()).toEqual(Array.from({ length: 10 }, (_, at) => `Place ${12 - at}`));
      // One reading, and without a sheet all seven closing checks are open.
      await expect
        .poll(async () => (await app.texts(".visit-stand"))[0])
        .toBe("Not finished, 1 reading, 7 things open, not reviewed");
      await app.page.getByRole("button", { name: "2 more" }).click();
      expect(await titles()).toHaveLength(12);
    }));

  test("are deleted only after a question, with all that is theirs", () =>
    withApp({}, async (app) => {
      const { page } = app;
      for (const at of [1, 2]) await app.bringIn("visit.json", exportVisit(visit(at)));
      const question = page.getByRole("alertdialog");
      await page.getByRole("button", { name: "Delete: Place 1" }).click();
      expect(await question.textContent()).toMatch(/Its 1 reading, all else that was logged .* go for good/);
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        question.getByRole("button", { name: "Export it first" }).click(),
      ]);
      const exported = importVisit(await readFile(await download.path(), "utf8"));
      expect(exported).toMatchObject({ ok: true, visit: visit(1) });
      await question.getByRole("button", { name: "No, keep it" }).click();
      expect(await app.table("visits")).toHaveLength(2);

      await page.getByRole("button", { name: "Delete: Place 1" }).click();
      await question.getByRole("button", { name: "Yes, delete it" }).click();
      await question.waitFor({ state: "detached" });
      expect(await app.texts(".visit-rows strong")).toEqual(["Place 2"]);
      await page.locator("#visits-heading:focus").waitFor();
      expect((await app.stored()).map(({ visitId }) => visitId)).toEqual(["v2"]);
      // Gone, it can come in again.
      expect(await app.bringIn("visit.json", exportVisit(visit(1)))).toEqual(["Visit kept: Place 1."]);
    }));
});

test("of many reasons against a file five are in sight, and all behind one tap", () =>
  withApp({}, async (app) => {
    const demo = JSON.parse(await readFile(DEMO, "utf8"));
    const bad = { ...demo, title: "", closing: Array.from({ length: 7 }, (_, at) => `bell ${at}`) };
    const file = { name: "bad.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(bad)) };
    await app.page.locator("input[type=file]").setInputFiles(file);
    const notice = app.page.locator(".strip .notice-problem");
    await notice.waitFor();
    expect(await notice.locator("> ul > li").count()).toBe(5);
    await notice.getByText("and 3 more").click();
    expect((await notice.locator("li").allInnerTexts()).at(-1)).toMatch(/^bad\.json, closing\[6\].*"bell 6"/);
  }));
