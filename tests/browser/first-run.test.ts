import { expect, test } from "vitest";
import { FIRST_SETTINGS } from "../../src/app/settings.ts";
import { type App, withApp } from "./app.ts";
import { withMicrophone } from "./microphone.ts";

const TO_START = { name: "To the start" };

/** The settings as they lie on the disk. */
async function settings(app: App): Promise<unknown> {
  const rows = (await app.table("settings")) as { key: string; value: unknown }[];
  return rows.find(({ key }) => key === "settings")?.value;
}

test("nothing opens before the cautions are acknowledged; then the choices are kept and the page is gone", () =>
  withApp({ firstRun: true }, async (app, reopen) => {
    const { page } = app;
    expect(await app.text(".cautions-list")).toMatch(/licensed heating technicians only/i);
    expect(await app.text(".cautions-list")).toMatch(/maker's instructions and local codes prevail/i);
    const onward = page.getByRole("button", TO_START);
    expect(await onward.getAttribute("aria-disabled")).toBe("true");
    expect(await app.text("#welcome-says")).toMatch(/first read the cautions/i);
    await onward.click({ force: true });
    expect(await page.locator(".welcome").count()).toBe(1);

    await page.getByLabel("SI (mbar, °C)").check();
    await page.getByLabel("Everything, with limits and reasons").check();
    await page.getByLabel("Dark cellar").check();
    await page.locator("html[data-theme=dark]").waitFor();
    await page.locator("input[name=cautions-read]").check();
    await onward.click();
    await page.locator(".start").waitFor();
    expect(await settings(app)).toEqual({
      ...FIRST_SETTINGS,
      units: "si",
      talk: "full",
      theme: "dark",
      welcomed: true,
    });
    expect(await page.locator("input[name=units][value=si]").isChecked()).toBe(true);

    await app.launched.close();
    const again = await reopen();
    expect(await again.page.locator(".start").count()).toBe(1);
    // It can be read again.
    await again.page.getByText("Settings", { exact: true }).click();
    await again.page.getByRole("button", { name: "Cautions and microphone check" }).click();
    await again.page.locator(".welcome").waitFor();
    expect(await again.page.locator("input[name=cautions-read]").isChecked()).toBe(true);
    expect(again.errors).toEqual([]);
  }));

test("the office opens before that, with a caution of its own; all else does not", () =>
  withApp({ firstRun: true }, async (app) => {
    const { page } = app;
    await page.goto(`${app.served.url}#/office`);
    await page.reload();
    await page.locator("h1", { hasText: "Office: visits" }).waitFor();
    expect(await app.text(".office-caution")).toMatch(/proves no appliance safe/);
    await page.getByRole("link", TO_START).click();
    await page.locator(".welcome").waitFor();
    await page.locator("input[name=cautions-read]").check();
    await page.getByRole("button", TO_START).click();
    await page.locator(".start").waitFor();
  }));

test("the microphone check hears the sentence, shows what was understood, and lets the microphone go", () =>
  withMicrophone(
    { phrases: ["high fire CO2 nine point two"], before: 8 },
    async (app) => {
      const { page } = app;
      await app.keepMicrophones();
      expect(await app.tracks()).toEqual([]);
      await page.getByRole("button", { name: "Check the microphone" }).click();
      await page.locator(".level-meter").waitFor({ timeout: 60_000 });
      expect(await app.tracks()).toEqual(["live"]);
      // While somebody speaks the meter moves, and says how loud that is.
      await page.locator(".level-words", { hasText: /^Good\.$/ }).waitFor({ timeout: 30_000 });
      await page.locator(".check-result", { hasText: "That works." }).waitFor({ timeout: 30_000 });
      expect(await app.text(".check-heard")).toMatch(/Heard\s+“high fire co2 nine point two”/);
      expect((await app.texts(".check-heard u")).join(" ")).toBe("high fire co2 nine point two");
      expect(await app.text(".check-heard")).toContain("Understood: CO2 9.2 %, high fire");
      await expect.poll(() => app.tracks()).toEqual(["ended"]);
      await expect.poll(() => app.earWorkers()).toEqual([]);
      // It is no visit, and nothing of it is kept.
      expect([await app.table("visits"), await app.stored(), await app.table("clips")]).toEqual([[], [], []]);
      expect(app.errors).toEqual([]);
    },
    { firstRun: true },
  ));

test("something else that was said is shown, and asked for once more", () =>
  withMicrophone(
    { phrases: ["high fire CO2 eight point four"], before: 8 },
    async (app) => {
      await app.page.getByRole("button", { name: "Check the microphone" }).click();
      await app.page
        .locator(".check-result", { hasText: "That was something else." })
        .waitFor({ timeout: 60_000 });
      expect(await app.text(".check-heard")).toContain("Understood: CO2 8.4 %, high fire");
    },
    { firstRun: true },
  ));

test("leaving in the middle of the check lets the microphone go", () =>
  withMicrophone(
    { phrases: [], before: 60 },
    async (app) => {
      await app.keepMicrophones();
      await app.page.getByRole("button", { name: "Check the microphone" }).click();
      await app.page.locator(".level-meter").waitFor({ timeout: 60_000 });
      await app.page.locator("input[name=cautions-read]").check();
      await app.page.getByRole("button", TO_START).click();
      await app.page.locator(".start").waitFor();
      await expect.poll(() => app.tracks()).toEqual(["ended"]);
      await expect.poll(() => app.earWorkers()).toEqual([]);
    },
    { firstRun: true },
  ));

test("a microphone that is refused is told, with what to do, and hinders nothing", () =>
  withMicrophone(
    { phrases: [], before: 5 },
    async (app) => {
      const { page } = app;
      await page.getByRole("button", { name: "Check the microphone" }).click();
      expect(await app.text(".ear-trouble")).toMatch(/^The microphone is not allowed: allow it/);
      expect(await app.text(".check-result")).toMatch(/can go on without a microphone/);
      await page.locator("input[name=cautions-read]").check();
      await page.getByRole("button", TO_START).click();
      await page.locator(".start").waitFor();
    },
    { firstRun: true, allowed: false },
  ));
