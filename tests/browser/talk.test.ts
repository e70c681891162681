import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";
import { keptSettings } from "./kept-settings.ts";

// How much is said, chosen and spoken. Limits are those of the demo's own sheet.

const READING = "high fire CO2 nine point two, CO forty";
const SHORT = /^Nine point two, forty, four zero, good\./;
const last = async (app: App) => (await app.spoken()).at(-1);

const open = (app: App) => app.page.getByText("Settings", { exact: true }).click();
const level = (app: App) => app.page.locator("input[name=talk]:checked").getAttribute("value");
const choose = async (app: App, label: string) => {
  await open(app);
  await app.page.getByLabel(label).check();
};

test("the level of the settings is that of the answers, also after a reload", () =>
  withApp({}, async (app) => {
    await choose(app, "Everything, with limits and reasons");
    await keptSettings(app, { talk: "full" });
    await app.load();
    await open(app);
    expect(await level(app)).toBe("full");
    await app.startVisit();
    await app.type(READING);
    expect(await last(app)).toMatch(/eight point five, up to nine point five/);

    await app.page.getByRole("button", { name: "To the start" }).click();
    await choose(app, "Only numbers and the next step");
    await app.page.getByRole("button", { name: "Go on" }).click();
    await app.page.locator(".face").waitFor();
    await app.type(READING);
    expect(await last(app)).toMatch(SHORT);
  }));

test("“say less” and “say more” change the level and keep it", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("say more");
    await app.type(READING);
    expect(await last(app)).toMatch(/eight point five, up to nine point five/);
    await app.type("say less");
    await app.type("say less");
    await keptSettings(app, { talk: "short" });
    await app.load();
    await app.type(READING);
    expect(await last(app)).toMatch(SHORT);
    await app.page.getByRole("button", { name: "To the start" }).click();
    await open(app);
    expect(await level(app)).toBe("short");
  }));

test("settings that were stored before there were levels are kept", () =>
  withApp({}, async (app) => {
    const value = { ear: "platform", platformMaySend: false, units: "si" };
    await app.overwrite("settings", { key: "settings", value });
    await app.load();
    // Settings of before there was a first-run page.
    await app.passWelcome();
    await open(app);
    expect([
      await level(app),
      await app.page.locator("input[name=units]:checked").getAttribute("value"),
    ]).toEqual(["normal", "si"]);
    expect(await app.page.getByLabel("The browser's recogniser").isChecked()).toBe(true);
  }));
