import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";

// Real Chromium, the built app, its real parser, judge and store.

const lines = (app: App) => app.texts(".warning-strip strong");
const understood = (app: App) => app.page.getByRole("button", { name: "Understood" });
const press = async (app: App) => {
  await understood(app).click();
  await app.page.locator(`main[aria-busy="false"]`).waitFor();
  await understood(app).waitFor({ state: "detached" });
};

test("a warning stays until “Understood” is pressed and is gone after, over reloads", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("room CO fifty");
    expect(await app.texts(".warning-text")).toEqual(["Room CO 50. Stop and ventilate."]);
    // It is large on the plate: not told twice.
    expect(await lines(app)).toEqual([]);

    // Its cause is gone, and it was not acknowledged.
    await app.type("room CO two");
    expect(await app.page.locator(".warning").count()).toBe(0);
    expect(await lines(app)).toEqual(["Room CO 50. Stop and ventilate."]);
    expect(await app.text(".warning-strip li")).toMatch(/\d\d:\d\d:\d\d$/);
    await app.load();
    expect(await lines(app)).toEqual(["Room CO 50. Stop and ventilate."]);

    await press(app);
    expect(await lines(app)).toEqual([]);
    // The button is gone: the focus stands where the next thing is typed.
    await app.page.locator("#phrase:focus").waitFor();
    expect(await app.text(".line >> nth=0")).toContain("Warnings acknowledged");
    expect((await app.stored()).at(-1)?.entry.body).toEqual({ kind: "mark", mark: "acknowledged" });
    await app.load();
    expect([await lines(app), await understood(app).count()]).toEqual([[], 0]);
    expect(app.errors).toEqual([]);
  }));

test("what stops the work stays when it is understood", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("room CO fifty");
    await press(app);
    expect(await app.texts(".warning-text")).toEqual(["Room CO 50. Stop and ventilate."]);
    await app.load();
    expect(await app.texts(".warning-text")).toEqual(["Room CO 50. Stop and ventilate."]);
    expect(await understood(app).count()).toBe(0);
  }));

test("“acknowledged” does what the button does", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("room CO fifty");
    await app.type("room CO two");
    await app.type("acknowledged");
    expect([await lines(app), await understood(app).count()]).toEqual([[], 0]);
  }));

test("only a new warning is announced as an alert", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("room CO fifty");
    expect(await app.page.getByRole("alert").count()).toBe(1);
    await app.type("note trap is dry");
    expect(await app.texts(".warning-word")).toEqual(["WARNING"]);
    expect(await app.page.getByRole("alert").count()).toBe(0);
  }));

test.each([
  ["a phone", 390, 844],
  ["a tablet on its side", 1024, 768],
])(
  "on %s the open warnings and their button are in sight, and the button is knuckle-sized",
  (_, width, height) =>
    withApp({}, async (app) => {
      await app.page.setViewportSize({ width, height });
      await app.startVisit();
      await app.type("room CO fifty");
      await app.type("room CO two");
      await app.type("high fire CO2 ten point five");
      const strip = await app.page.locator(".warning-strip").boundingBox();
      const button = await understood(app).boundingBox();
      if (!strip || !button) throw new Error("not shown");
      // WCAG 2.2, success criterion 2.5.5 asks 44 px of a target for a fingertip; a knuckle gets twice that.
      expect(Math.min(button.width, button.height)).toBeGreaterThanOrEqual(88);
      expect(button.y + button.height).toBeLessThanOrEqual(height);
      expect(strip.y).toBeGreaterThanOrEqual(0);
      expect(strip.y + strip.height).toBeLessThanOrEqual(button.y);
      expect(await app.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }),
);

test.each([
  ["a phone", 390, 844],
  ["a tablet on its side", 1024, 768],
])("on %s a danger is first, fills its plate, and no word of it is broken", (_, width, height) =>
  withApp({}, async (app) => {
    await app.page.setViewportSize({ width, height });
    await app.startVisit();
    await app.type("high fire CO2 ten point five");
    await app.type("room CO fifty");
    await app.type("room CO two");
    await app.type("smell of gas");
    expect(await app.texts(".warning-word")).toEqual(["DANGER"]);
    const seen = await app.page.evaluate(() => {
      const of = (selector: string) => {
        const element = document.querySelector(selector);
        if (!element) throw new Error(`no ${selector}`);
        return element;
      };
      const text = of(".warning-text");
      return {
        size: Number.parseFloat(getComputedStyle(text).fontSize),
        isWhole: text.scrollWidth <= text.clientWidth,
        bottom: of(".warning").getBoundingClientRect().bottom,
        controls: of(".controls").getBoundingClientRect(),
        stripIsBelow:
          of(".warning-strip").getBoundingClientRect().top >= of(".face").getBoundingClientRect().bottom,
      };
    });
    // A tenth of the phone's width: 87 letters of this are as much as its plate takes.
    expect(seen.size).toBeGreaterThanOrEqual(width > height ? 50 : 36);
    expect(seen).toMatchObject({ isWhole: true, stripIsBelow: true });
    expect(seen.bottom).toBeLessThanOrEqual(width > height ? height : seen.controls.top);
  }),
);
