import { expect, test } from "vitest";
import { FIRST_SETTINGS } from "../../src/app/settings.ts";
import { type App, withApp } from "./app.ts";

const settings = async (app: App) => (await app.table("settings")) as { key: string; value: unknown }[];
const chosen = (app: App) =>
  app.page
    .locator("input[name=ear]")
    .evaluateAll((all) => all.map((one) => (one as HTMLInputElement).checked));

/** Chooses the browser's recogniser in a browser that cannot say whether it stays on the device, as older ones. */
async function choosePlatform(app: App): Promise<void> {
  await app.page.evaluate(() => {
    for (const name of ["SpeechRecognition", "webkitSpeechRecognition"]) {
      const recogniser: unknown = Reflect.get(globalThis, name);
      if (typeof recogniser === "function") Reflect.deleteProperty(recogniser, "available");
    }
  });
  await app.page.getByText("Settings", { exact: true }).click();
  await app.page.getByLabel("The browser's recogniser").click();
}

test("a microphone that is refused or missing is one sentence, and typing goes on", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.page.locator(".ear").click();
    expect(await app.text(".ear-trouble")).toMatch(
      /^(The microphone is not allowed|No microphone was found)[^.]*\.$/,
    );
    expect(await app.text(".ear-state")).toBe("Not listening");
    await app.type("high fire CO2 nine point two");
    expect(await app.text(".large")).toBe("9.2 %");
  }));

test("a recogniser that may send sound away is asked about first, and “no” keeps our own", () =>
  withApp({}, async (app) => {
    await choosePlatform(app);
    expect(await app.text(".question p")).toMatch(/leave this device\?$/i);
    await app.page.getByRole("button", { name: /^No/ }).click();
    expect(await chosen(app)).toEqual([true, false]);
    expect(await settings(app)).toContainEqual({
      key: "settings",
      value: { ...FIRST_SETTINGS, welcomed: true },
    });
  }));

test("“yes” chooses it, until the device's own is chosen again", () =>
  withApp({}, async (app) => {
    await choosePlatform(app);
    await app.page.getByRole("button", { name: /^Yes/ }).click();
    await app.page.locator(".question").waitFor({ state: "detached" });
    await expect
      .poll(() => settings(app))
      .toContainEqual({
        key: "settings",
        value: { ...FIRST_SETTINGS, welcomed: true, ear: "platform", platformMaySend: true },
      });
    await app.page.getByLabel("Burnerside's own recogniser").click();
    await expect
      .poll(() => settings(app))
      .toContainEqual({
        key: "settings",
        value: { ...FIRST_SETTINGS, welcomed: true, ear: "offline", platformMaySend: false },
      });
  }));
