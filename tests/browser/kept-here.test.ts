import { expect, test } from "vitest";
import { withApp } from "./app.ts";

test("a private window works, and says before anything is stored what becomes of it", () =>
  withApp({}, async (app) => {
    const browser = app.launched.context.browser();
    const context = await browser?.newContext();
    const page = await context?.newPage();
    if (!page) throw new Error("Expected a private window.");
    await page.goto(app.served.url);
    await page.locator("input[name=cautions-read]").check();
    await page.getByRole("button", { name: "To the start" }).click();
    const words = page.locator(".kept-here");
    await words.waitFor();
    expect(await words.textContent()).toMatch(
      /has not promised to keep.* In a private window all of it is gone/s,
    );
    await page.locator(".sheet-row", { hasText: "35 kW" }).locator("input").check();
    await page.locator("input[name=units][value=si]").check();
    await page.getByRole("button", { name: "Go", exact: true }).click();
    await page.getByLabel("Or type").fill("high fire CO2 nine point two");
    await page.getByLabel("Or type").press("Enter");
    await page.locator(".large", { hasText: "9.2 %" }).waitFor();
    // It comes up again after a reload, as long as the window is open.
    await page.reload();
    await page.locator(".large", { hasText: "9.2 %" }).waitFor();
    // Nothing of it is in the other windows.
    expect(await app.stored()).toEqual([]);
    await context?.close();
  }));

test("a window that has the browser's promise says nothing of it", () =>
  withApp(
    {
      prepare: async (context) => {
        await context.addInitScript(() => {
          StorageManager.prototype.persisted = async () => true;
        });
      },
    },
    async (app) => {
      await app.page.locator(".settings summary").click();
      await app.page.locator(".device", { hasText: "has promised to keep it" }).waitFor();
      expect(await app.page.locator(".kept-here").count()).toBe(0);
    },
  ));
