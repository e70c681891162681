import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";

// The wall clock, and a sheet whose settle time is a few seconds.

const SECONDS = 6;

async function begin(app: App): Promise<void> {
  const demo = JSON.parse(await readFile("demo-data/sheets/demo-35.json", "utf8"));
  const settleSeconds = { high: SECONDS, low: SECONDS };
  const sheet = { ...demo, id: "quick", title: "Quick sheet", settleSeconds };
  await app.bringIn("quick.json", JSON.stringify(sheet));
  await app.startVisit("Quick sheet");
  await app.type("high fire CO2 ten point five");
  await app.type("turned it one turn counterclockwise");
}

const ready = async (app: App) => (await app.spoken()).filter((text) => text.startsWith("Ready"));
const over = (app: App) => app.page.locator(".countdown").waitFor({ state: "detached" });

test("when the settle time is over the voice says so, once, whatever came in between", () =>
  withApp({}, async (app) => {
    await begin(app);
    await app.type("note trap is dry");
    await app.type("what's the limit");
    expect(Number(await app.text(".countdown-seconds"))).toBeLessThanOrEqual(SECONDS);
    expect(await ready(app)).toEqual([]);
    await over(app);
    expect(await ready(app)).toEqual([expect.stringMatching(/^Ready\. Read C O two/)]);
    await app.page.waitForTimeout(1500);
    expect(await ready(app)).toHaveLength(1);
    expect(app.errors).toEqual([]);
  }));

test("it counts on after a reload in the middle, and says so once", () =>
  withApp({}, async (app) => {
    await begin(app);
    await app.load();
    await app.page.locator(".countdown").waitFor();
    expect(await app.spoken()).toEqual([]);
    await over(app);
    expect(await ready(app)).toHaveLength(1);
    // It was told; opening again does not tell it again.
    await app.load();
    await app.page.waitForTimeout(1500);
    expect(await app.spoken()).toEqual([]);
  }));

test("while a question is open only “Ready.” is said", () =>
  withApp({}, async (app) => {
    await begin(app);
    await app.type("CO2 ninety five");
    await over(app);
    expect(await ready(app)).toEqual(["Ready."]);
  }));
