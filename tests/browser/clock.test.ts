import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { importVisit } from "../../src/record/bundle.ts";
import { type App, withApp } from "./app.ts";

// The device's clock is set, and the device carried to another zone, in the middle of a visit.

/** Sets the page's clock by so many minutes, now and after every load; the clock that counts waits nobody sets. */
async function setClock(page: Page, minutes: number): Promise<void> {
  const set = (by: number) => {
    const { now } = Date;
    const Real = Date;
    const shifted = () => now() + by * 60_000;
    globalThis.Date = new Proxy(Real, {
      construct: (target, args: []) => (args.length === 0 ? new target(shifted()) : new target(...args)),
      get: (target, name) => (name === "now" ? shifted : Reflect.get(target, name)),
    });
  };
  await page.addInitScript(set, minutes);
  await page.evaluate(set, minutes);
}

async function turned(app: App, settle: number): Promise<void> {
  const sheet = await (await import("node:fs/promises")).readFile("demo-data/sheets/demo-35.json", "utf8");
  const quick = {
    ...JSON.parse(sheet),
    id: "quick",
    title: "Quick sheet",
    settleSeconds: { high: settle, low: settle },
  };
  await app.bringIn("quick.json", JSON.stringify(quick));
  await app.startVisit("Quick sheet");
  await app.type("high fire CO2 ten point five, CO forty");
  await app.type("half a turn counterclockwise");
}

test.each([
  ["forward", 60],
  ["back", -60],
])(
  "set %s by an hour during a wait: that is told, and “Ready” comes when it is, neither before nor an hour later",
  (way, minutes) =>
    withApp({}, async (app) => {
      await turned(app, 4);
      const since = Date.now();
      await setClock(app.page, minutes);
      expect(await app.text(".notice-problem")).toContain(`The clock of this device was set ${way} by`);
      expect(Number(await app.text(".countdown-seconds"))).toBeLessThanOrEqual(4);
      await app.page.locator(".countdown").waitFor({ state: "detached" });
      expect(Date.now() - since).toBeGreaterThan(2500);
      await expect.poll(() => app.spoken()).toContainEqual(expect.stringMatching(/^Ready\./));
      expect(app.errors).toEqual([]);
    }),
);

test("set back, the log stays in its order, goes on after a reload, and its record says where times run backwards", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    await setClock(app.page, -120);
    await app.type("CO forty");
    await app.type("CO fifty");
    await app.load();
    await app.type("scratch that");
    const rows = await app.stored();
    expect(rows.map(({ seq, entry }) => [seq, entry.phrase])).toEqual([
      [0, "high fire CO2 nine point two"],
      [1, "CO forty"],
      [2, "CO fifty"],
      [3, "scratch that"],
    ]);
    expect(Date.parse(rows[1]?.entry.at ?? "")).toBeLessThan(Date.parse(rows[0]?.entry.at ?? ""));
    await app.page.locator(".struck", { hasText: "CO 50 ppm" }).waitFor();
    const [head] = (await app.table("visits")) as { id: string }[];
    const entries = rows.map(({ entry }) => entry);
    expect(importVisit(JSON.stringify({ format: "burnerside-visit/1", head, entries })).ok).toBe(true);
    await app.page.goto(`${app.served.url}#/record/${head?.id}`);
    await app.page.locator(".record").waitFor();
    expect(await app.page.locator(".record").textContent()).toMatch(/Times run backwards[\s\S]*at entry 2/);
  }));

test("in another zone the times of a visit are those of where it began", () =>
  withApp({}, async (app) => {
    const session = await app.launched.context.newCDPSession(app.page);
    await session.send("Emulation.setTimezoneOverride", { timezoneId: "Europe/Vienna" });
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    const before = await app.texts(".line time");
    await session.send("Emulation.setTimezoneOverride", { timezoneId: "America/Denver" });
    await app.load();
    expect(await app.texts(".line time")).toEqual(before);
    await app.type("CO forty");
    const [first, second] = await app.stored();
    const gap = Date.parse(second?.entry.at ?? "") - Date.parse(first?.entry.at ?? "");
    expect(gap).toBeGreaterThan(0);
    expect(gap).toBeLessThan(60_000);
    expect(await app.page.locator(".countdown").count()).toBe(0);
  }));
