import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";

// What was heard last, at the boiler: shown with what was understood of it, struck and mended by hand.

const open = (app: App) => app.page.locator(".heard-open").click();
const thing = (app: App, words: string) => app.page.locator(".heard-thing", { hasText: words });
const idle = (app: App) => app.page.locator(`main[aria-busy="false"]`).waitFor();
const bodies = async (app: App) => (await app.stored()).map((row) => row.entry.body);

test("what was understood is underlined, the rest is not", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("okay so high fire CO2 nine point two and CO forty");
    expect(await app.texts(".heard-words u")).toEqual(["high fire", "CO2 nine point two", "CO forty"]);
    expect((await app.texts(".heard-skipped")).map((text) => text.trim())).toEqual(["okay so", "", "and"]);
    // It is heard the same way after a reload.
    await app.load();
    expect(await app.texts(".heard-words u")).toEqual(["high fire", "CO2 nine point two", "CO forty"]);
  }));

test("of two readings of one phrase one is mended by typing what it was, and the verdict follows", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two, CO fourteen");
    await open(app);
    await thing(app, "CO2 9.2 %").getByRole("textbox").fill("9.9");
    await thing(app, "CO2 9.2 %").getByRole("button", { name: "Mend" }).click();
    await thing(app, "CO2 9.9 %").waitFor();
    expect(await app.texts(".struck s")).toEqual(["CO2 9.2 %, high fire"]);
    expect(await app.text(".verdicts")).toMatch(/CO2 9.9 %\s+Out of limits/);
    expect((await bodies(app)).at(-1)).toMatchObject({
      kind: "replace",
      with: { quantity: "co2", value: 9.9, firing: "high" },
    });
  }));

test("what cannot be is refused in one sentence and changes nothing", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    const before = await app.stored();
    await open(app);
    await thing(app, "CO2").getByRole("textbox").fill("hello");
    await thing(app, "CO2").getByRole("textbox").press("Enter");
    await app.page.getByRole("alert").waitFor();
    expect(await app.text(".heard-thing .alert")).toMatch(/^[^.]+\.$/);
    expect(await app.stored()).toEqual(before);
  }));

test("struck with a tap, and put back with another", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two, CO forty");
    await open(app);
    await thing(app, "CO 40 ppm").getByRole("button", { name: "Strike" }).click();
    await thing(app, "CO 40 ppm").getByRole("button", { name: "Put back" }).waitFor();
    await idle(app);
    expect((await bodies(app)).at(-1)?.kind).toBe("strike");
    await thing(app, "CO 40 ppm").getByRole("button", { name: "Put back" }).click();
    await thing(app, "CO 40 ppm").getByRole("button", { name: "Strike" }).waitFor();
    await idle(app);
    expect((await bodies(app)).at(-1)).toMatchObject({
      kind: "replace",
      with: { quantity: "co", value: 40 },
    });
  }));
