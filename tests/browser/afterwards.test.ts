import { describe, expect, test } from "vitest";
import { exportVisit } from "../../src/record/bundle.ts";
import { longVisit } from "../support/long-visit.ts";
import { reviewVisit } from "../support/review-visit.ts";
import { type App, withApp } from "./app.ts";
import { withMicrophone } from "./microphone.ts";

// A visit looked through afterwards: filtered, mended by typing and by picking, found right, and all of it there after a reload.

const row = (app: App, words: string) => app.page.locator(".said-row", { hasText: words });
const thing = (app: App, words: string) => app.page.locator(".thing", { hasText: words });
const bodies = async (app: App) => (await app.stored()).map(({ entry }) => entry.body);
const idle = (app: App) => app.page.locator(`main.afterwards[aria-busy="false"]`).waitFor();
const count = (app: App) => app.text(".filter label >> nth=1");

/** Opens the review from the list of earlier visits. */
async function lookOver(app: App): Promise<void> {
  await app.page
    .getByRole("button", { name: /^Look it over/ })
    .first()
    .click();
  await app.page.locator(".said-row").first().waitFor();
  await app.page.getByText("Going through the visit").waitFor({ state: "detached" });
}

/** Types what something was. */
async function mend(app: App, words: string, text: string): Promise<void> {
  await thing(app, words)
    .getByRole("button", { name: /^Mend: / })
    .first()
    .click();
  await thing(app, words).getByRole("textbox").fill(text);
  await thing(app, words).getByRole("textbox").press("Enter");
}

test("from dictation to “looks right”: filtered, mended, picked, and all there after a reload", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("okay so high fire CO2 eleven point two, CO forty");
    await app.type("CO2 ninety two");
    await app.type("CO two hundred");
    await app.page.getByRole("button", { name: "Look it over" }).click();
    await row(app, "eleven point two").waitFor();
    expect((await app.texts(".said-row time")).length).toBe(3);
    expect(await app.texts(".said-row >> nth=0 >> u")).toEqual([
      "high fire",
      "CO2 eleven point two",
      "CO forty",
    ]);
    expect(await app.text(".thing >> nth=0 >> .thing-verdict")).toMatch(/Out of limits\s+limit 8.5 to 9.5 %/);
    expect(await app.texts(".thing >> nth=0 >> .fields-said li")).toEqual([
      "Quantity CO2 said",
      "Value 11.2 said",
      "Firing High fire said",
    ]);
    await app.page.getByText("Going through the visit").waitFor({ state: "detached" });
    expect(await count(app)).toContain("(3)");

    // Only what needs a look. What was not understood is picked, and counts at its own place: high fire is put right by it.
    await app.page.getByLabel(/Needs a look/).check();
    expect(await app.texts(".said-row time")).toHaveLength(3);
    await thing(app, "Not logged")
      .getByRole("button", { name: /^It was CO2 9.2/ })
      .click();
    await row(app, "CO2 ninety two").waitFor({ state: "detached" });
    expect(await app.texts(".said-row .needs")).toEqual(["It is out of limits, and was left so."]);
    // By typing; the old value stays to be seen.
    await mend(app, "CO 200 ppm", "20");
    await app.page.getByText("Nothing that was heard needs a look.").waitFor();
    await app.page.getByLabel(/Everything/).check();
    expect(await row(app, "CO2 ninety two").textContent()).toContain("now CO2 9.2 %, high fire");
    await thing(app, "now CO 20 ppm, high fire").waitFor();
    expect(await row(app, "CO two hundred").locator(".fields-said li").allInnerTexts()).toEqual([
      "Quantity CO said",
      "Value 200",
      "Value 20 said",
      "Firing High fire assumed",
    ]);
    expect(await app.texts(".thing s")).toContain("CO 200 ppm, high fire");
    expect(await count(app)).toContain("(0)");
    // What cannot be is refused in one sentence.
    await mend(app, "CO2 11.2 %", "cheese");
    expect(await app.text(".thing >> nth=0 >> [role=alert]")).toBe(
      "Nothing in “cheese” says what it was instead.",
    );

    // As found is as left: nothing was turned.
    const co2 = app.page.locator(".phases tr", { hasText: "CO2, high fire" });
    expect(await co2.locator("td").allInnerTexts()).toEqual([
      expect.stringContaining("9.2 %"),
      expect.stringContaining("9.2 %"),
      "8.5 to 9.5 %",
    ]);
    expect((await app.texts(".open-part")).join(" ")).toContain("Low fire was not read");

    await app.page.getByLabel("Your name").fill("Ada Quill");
    // What is open is said where it is signed.
    expect(await app.text("#still-open")).toMatch(
      /^Not finished; \d+ things are open, \d+ warnings are not acknowledged\.$/,
    );
    // The numbers of other appliances are offered: for that the visits are read, this one too, before it is found right.
    await app.page.getByLabel("Appliance (serial").focus();
    await app.page.getByRole("button", { name: "Looks right" }).click();
    expect(await app.text(".reviewed")).toMatch(/^Looks right: Ada Quill, /);
    await app.page.getByRole("button", { name: "To the start" }).click();
    await app.page.locator(".visit-stand", { hasText: "reviewed by Ada Quill" }).waitFor();
    await app.page.getByRole("button", { name: /^Look it over/ }).click();
    expect((await bodies(app)).map(({ kind }) => kind).slice(-3)).toEqual(["replace", "replace", "reviewed"]);

    await app.page.reload();
    expect(await app.text(".reviewed")).toMatch(/^Looks right: Ada Quill, /);
    expect(await app.texts(".thing s")).toContain("CO 200 ppm, high fire");
    // Whatever changes later opens the review again; the name is known.
    await app.page.getByRole("button", { name: /^Mend: CO 40 ppm/ }).click();
    await app.page.getByRole("button", { name: "Strike: CO 40 ppm, high fire" }).click();
    expect(await app.text(".looks-right")).toContain("Found right by Ada Quill");
    expect(await app.page.getByLabel("Your name").inputValue()).toBe("Ada Quill");
    await app.page.getByRole("button", { name: "Put back: CO 40 ppm, high fire" }).click();
    await idle(app);
    expect((await app.stored()).filter(({ entry }) => entry.engine === "typed")).toHaveLength(9);
    expect(app.errors).toEqual([]);
  }));

test("what the ear heard less surely is offered, and what is right is confirmed", () =>
  withApp({}, async (app) => {
    await app.bringIn("visit.json", exportVisit(reviewVisit()));
    await lookOver(app);
    await app.page.getByLabel(/Needs a look/).check();
    const before = await app.texts(".said-row time");
    await thing(app, "CO 40 ppm")
      .getByRole("button", { name: /^It was CO 14/ })
      .click();
    await thing(app, "now CO 14 ppm").waitFor();
    await app.page.getByRole("button", { name: /^Right as it is: CO2 9.1 %/ }).click();
    await app.page.getByRole("button", { name: /^Right as it is: CO2 9.1 %/ }).waitFor({ state: "detached" });
    expect(await app.texts(".said-row time")).toHaveLength(before.length - 1);
    const last = (await bodies(app)).slice(-2);
    expect(last).toMatchObject([
      { kind: "replace", with: { quantity: "co", value: 14, firing: "high" } },
      { kind: "replace", with: { quantity: "co2", value: 9.1 } },
    ]);
    expect(app.errors).toEqual([]);
  }));

test("what was said by voice is told as that, and its sound is played", () =>
  withMicrophone({ voice: "rms", phrases: ["high fire CO2 nine point two, CO forty"] }, async (app) => {
    await app.startVisit();
    await app.listen();
    await app.page.locator(".play").first().waitFor({ timeout: 60_000 });
    await app.page.getByRole("button", { name: "Look it over" }).click();
    await row(app, "nine point two").waitFor();
    expect(await app.text(".said-how")).toMatch(/^heard by the recogniser on this device, .*sure, \d+ %$/);
    const play = row(app, "nine point two").locator(".play");
    await play.click();
    await app.page.locator(".play", { hasText: "Stop" }).waitFor();
    await app.page.locator(".play", { hasText: "Stop" }).waitFor({ state: "detached" });
    expect(app.errors).toEqual([]);
  }));

test("on paper all of it is drawn", () =>
  withApp({}, async (app) => {
    await app.bringIn("long.json", exportVisit(longVisit(200)));
    await lookOver(app);
    const drawn = () => app.page.locator(".said-row").count();
    expect(await drawn()).toBeLessThan(100);
    // Heard after the app has heard it, and drawn.
    await app.page.evaluate(() => {
      const count = () => Reflect.set(globalThis, "printed", document.querySelectorAll(".said-row").length);
      addEventListener("beforeprint", count);
    });
    await app.page.pdf();
    expect(await app.page.evaluate(() => Reflect.get(globalThis, "printed"))).toBeGreaterThan(150);
    expect(await drawn()).toBeLessThan(100);
  }));

describe("a visit of 2,000 entries", () => {
  test("draws only what is near the screen, and all of it when scrolled to", () =>
    withApp({}, async (app) => {
      const visit = longVisit(2000);
      const said = `“${visit.entries.at(-1)?.said}”`;
      await app.bringIn("long.json", exportVisit(visit));
      await lookOver(app);
      expect((await app.texts(".said-row time")).length).toBeLessThan(120);
      const last = async () => (await app.page.locator(".said-row").last().textContent())?.toLowerCase();
      expect(await last()).not.toContain(said);
      await app.page.evaluate(() => scrollTo(0, document.body.scrollHeight));
      await expect.poll(last).toContain(said);
      await app.page.evaluate(() => scrollTo(0, 0));
      await app.page.getByRole("button", { name: "Go on at the boiler" }).click();
      await app.page.locator(".face").waitFor();
      await app.type("room CO three");
      expect(await app.text(".line >> nth=0")).toContain("Room CO 3 ppm");
      expect(await app.page.locator(".line").count()).toBeLessThan(120);
      expect(await app.page.locator(".log ol").first().getAttribute("start")).toBe("2001");
      expect(app.errors).toEqual([]);
    }));
});
