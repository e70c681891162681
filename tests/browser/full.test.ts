import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";

// A disk that takes nothing more. The browser reckons with an origin's quota anew only when it opens the database anew: so the
// page is away until nothing of the origin is open.

/** Gives the origin this many bytes, null as many as there are. */
async function quota(app: App, bytes: number | null): Promise<void> {
  const session = await app.launched.context.newCDPSession(app.page);
  const origin = new URL(app.served.url).origin;
  await session.send("Storage.overrideQuotaForOrigin", {
    origin,
    ...(bytes === null ? {} : { quotaSize: bytes }),
  });
}

async function fill(app: App): Promise<void> {
  await app.page.goto("about:blank");
  await quota(app, 1);
  await app.page.waitForTimeout(5000);
  await app.load();
}

const tables = async (app: App) =>
  Object.fromEntries(
    await Promise.all(
      ["visits", "entries", "sheets"].map(async (name) => [name, await app.table(name)] as const),
    ),
  );

test("phrases are held, unanswered; once there is room they are stored in order, answered, and go on", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    const before = await app.stored();
    await fill(app);

    for (const phrase of ["CO forty", "CO fifty", "scratch that"]) await app.type(phrase);
    expect(await app.text(".held")).toMatch(/Not saved[\s\S]*out of space/);
    expect(await app.text(".held")).toContain("No verdict and no advice was given for it");
    expect(await app.texts(".held li")).toEqual(["“CO forty”", "“CO fifty”", "“scratch that”"]);
    expect(await app.spoken()).toEqual(["Not saved. Look at the screen."]);
    expect(await app.stored()).toEqual(before);

    await quota(app, null);
    await expect
      .poll(
        async () => {
          const again = app.page.getByRole("button", { name: "Try again" });
          if (await again.isVisible()) await again.click();
          await app.page.locator(`main[aria-busy="false"]`).waitFor();
          return app.page.locator(".held").count();
        },
        { timeout: 30_000, interval: 500 },
      )
      .toBe(0);
    expect((await app.stored()).map(({ entry }) => entry.phrase)).toEqual([
      "high fire CO2 nine point two",
      "CO forty",
      "CO fifty",
      "scratch that",
    ]);
    expect(await app.page.locator(".struck", { hasText: "CO 50 ppm" }).count()).toBe(1);
    await app.type("CO forty five");
    expect(await app.text(".large")).toBe("45 ppm");
  }));

test("a visit, a sheet, a setting: each is said not to be stored, and nothing is half there", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    await app.page.getByRole("button", { name: "To the start" }).click();
    await app.page.locator(".start").waitFor();
    const before = await tables(app);
    await fill(app);

    const sheet = JSON.parse(await readFile("demo-data/sheets/demo-35.json", "utf8"));
    const refused = await app.bringIn("mine.json", JSON.stringify({ ...sheet, id: "mine", title: "Mine" }));
    expect(refused.join(" ")).toContain("out of space");

    await app.page.locator(".settings summary").click();
    await app.page.locator("input[name=talk][value=short]").click();
    await app.page.locator(".notice-problem", { hasText: "out of space" }).waitFor();
    await expect.poll(() => app.page.locator("input[name=talk][value=short]").isChecked()).toBe(false);
    await app.page.locator(".notice button").click();

    await app.page.locator(".sheet-row", { hasText: "35 kW" }).locator("input").check();
    await app.page.locator("input[name=units][value=si]").check();
    await app.page.getByRole("button", { name: "Go", exact: true }).click();
    await app.page.locator(".notice-problem", { hasText: "out of space" }).waitFor();
    expect(await app.page.locator(".face").count()).toBe(0);
    expect(await tables(app)).toEqual(before);
  }));
