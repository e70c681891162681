import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";
import { withMicrophone } from "./microphone.ts";

// Two windows of one browser on one visit: what both log is kept, in one order.

async function secondWindow(app: App): Promise<Page> {
  const page = await app.launched.context.newPage();
  page.setDefaultTimeout(15_000);
  await page.goto(app.served.url);
  await page.locator(".face").waitFor();
  return page;
}

async function typeIn(page: Page, phrase: string): Promise<void> {
  await page.getByLabel("Or type").fill(phrase);
  await page.getByLabel("Or type").press("Enter");
}

const idle = (page: Page) => page.locator(`main[aria-busy="false"]`).waitFor();
const phrases = async (app: App) => (await app.stored()).map(({ entry }) => entry.phrase);

test("what one window logs comes into the other, which says so and goes on from there", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    const second = await secondWindow(app);
    await typeIn(second, "high fire CO2 nine point two");
    await app.page.locator(".large", { hasText: "9.2 %" }).waitFor();
    expect(await app.text(".notice")).toMatch(/Another window has added to this visit: one entry/);
    // Nothing is said in a window that was not spoken to.
    expect(await app.spoken()).toEqual([]);

    await app.type("CO forty");
    expect(await app.text(".large")).toBe("40 ppm");
    expect(await app.page.locator(".notice").count()).toBe(0);
    await second.locator(".line", { hasText: "CO 40 ppm" }).waitFor();
    const [first, next] = await app.stored();
    expect([first?.seq, next?.seq]).toEqual([0, 1]);
    expect(next?.entry.body).toMatchObject({ quantity: "co", firing: "high" });
    expect(app.errors).toEqual([]);
  }));

test("typed at speed in both, every phrase of both is kept once, in its window's order, and the visit is sound", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    const second = await secondWindow(app);
    const mine = Array.from({ length: 15 }, (_, i) => `note: mine ${i}`);
    const theirs = Array.from({ length: 15 }, (_, i) => `CO ${30 + i}`);
    await Promise.all([
      (async () => {
        for (const phrase of mine) await app.send(phrase);
      })(),
      (async () => {
        for (const phrase of theirs) await typeIn(second, phrase);
      })(),
    ]);
    await Promise.all([idle(app.page), idle(second)]);
    const kept = await phrases(app);
    expect(kept).toHaveLength(30);
    expect(kept.filter((phrase) => mine.includes(phrase))).toEqual(mine);
    expect(kept.filter((phrase) => theirs.includes(phrase))).toEqual(theirs);
    expect((await app.stored()).map(({ seq }) => seq)).toEqual(kept.map((_, i) => i));
    // The links go on from window to window.
    await app.wholeLog();
    expect(await app.page.locator(".held").count()).toBe(0);
    expect(await second.locator(".held").count()).toBe(0);
    // Both show the same; the log draws what is near.
    const top = (page: Page) => page.locator(".line").first().textContent();
    await expect.poll(() => top(app.page)).toContain(kept.at(-1)?.split(" ").at(-1));
    await expect.poll(() => top(second)).toBe(await top(app.page));
    expect(app.errors).toEqual([]);
  }));

test("“scratch that” said before the other window's entry could be seen is held, not taken for that entry", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    // This window hears nothing of the other until it stores.
    await app.page.addInitScript(() => {
      BroadcastChannel.prototype.addEventListener = () => undefined;
    });
    await app.load();
    const second = await secondWindow(app);
    await typeIn(second, "CO forty");
    await second.locator(".line", { hasText: "CO 40 ppm" }).waitFor();

    await app.type("scratch that");
    expect(await app.text(".held")).toMatch(/another window has just added to this visit/);
    expect(await app.text(".held li")).toContain("scratch that");
    expect(await phrases(app)).toEqual(["high fire CO2 nine point two", "CO forty"]);
    // Now it is seen.
    await app.page.locator(".line", { hasText: "CO 40 ppm" }).waitFor();
    await app.page.getByRole("button", { name: "Try again" }).click();
    await app.page.locator(".struck", { hasText: "CO 40 ppm" }).waitFor();
    expect(await phrases(app)).toEqual(["high fire CO2 nine point two", "CO forty", "scratch that"]);
  }));

test("a window that begins to listen stops the other: one phrase is logged once", () =>
  withMicrophone({ phrases: ["CO forty"], before: 30 }, async (app) => {
    await app.startVisit();
    await app.listen();
    const second = await secondWindow(app);
    await second.locator(".ear").click();
    await second.locator(".ear-listening").waitFor({ timeout: 60_000 });
    expect(await app.text(".ear-trouble")).toMatch(/Another window of Burnerside listens now/);
    expect(await app.page.locator(".ear-listening").count()).toBe(0);
    expect(app.errors).toEqual([]);
  }));
