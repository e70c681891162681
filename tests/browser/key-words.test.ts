import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";
import { deafPlatform, says, seatMouth } from "./mouth.ts";

// The key words as they ship, in a browser: what the model hears, and what comes of it.

const READING = "high fire CO2 nine point two";

/** The readings that are stored, and how they were heard. */
async function readings(app: App): Promise<string[]> {
  const { entries } = await app.wholeLog();
  return entries.flatMap(({ engine, body }) =>
    body.kind === "reading" ? [`${body.quantity} ${body.value}, ${body.firing}, ${engine}`] : [],
  );
}

/** Has it said until this is shown: as people do, who say again what was not heard. */
async function until(app: App, text: string, shown: string, hasText?: RegExp): Promise<void> {
  const found = app.page.locator(shown, hasText && { hasText }).first();
  for (let tries = 1; ; tries++) {
    await says(app.page, text);
    const waiting = found.waitFor({ timeout: tries < 3 ? 4000 : 15_000 });
    if (tries === 3) return waiting;
    const seen = await waiting.then(
      () => true,
      () => false,
    );
    if (seen) return;
  }
}

/** Until the app's own words are out of the windows, too. */
const ownWordsOver = (app: App) => app.page.waitForTimeout(1500);

test("where the recogniser hears nothing, “yes” answers, a value is given figure by figure, and “stop” rests", () =>
  withApp(
    {
      prepare: async (context) => {
        await seatMouth(context, ["yes", "stop", "nine", "point", "two"], "slt");
        await context.addInitScript(deafPlatform);
      },
    },
    async (app) => {
      await app.changeSettings({ ear: "platform", platformMaySend: true });
      await app.startVisit();
      await app.listen();
      await app.keyWords();

      await app.type("high fire CO2 ninety one");
      expect(await readings(app)).toEqual([]);
      await ownWordsOver(app);
      await until(app, "yes", ".line", /CO2 9\.1 %/);
      expect(await readings(app)).toEqual(["co2 9.1, high, key-words"]);

      await app.type("low fire CO2");
      await app.page.getByRole("button", { name: "Figure by figure" }).click();
      await app.page.locator(".figures").waitFor();
      await ownWordsOver(app);
      await until(app, "nine", ".figures-value", /^9/);
      await until(app, "point", ".figures-value", /^9\./);
      await until(app, "two", ".figures-value", /^9\.2/);
      await app.page.locator(".figures-value", { hasText: "9.2?" }).waitFor();
      expect((await app.spoken()).at(-1)).toBe("Low fire C O two, nine point two?");
      expect(await readings(app)).toHaveLength(1);
      await ownWordsOver(app);
      await until(app, "yes", ".line", /CO2 9\.2 %, low fire/);
      expect((await readings(app))[1]).toBe("co2 9.2, low, key-words");
      expect(await app.page.locator(".figures").count()).toBe(0);

      await ownWordsOver(app);
      await until(app, "stop", ".ear-resting");
      expect((await app.spoken()).at(-1)).toBe("Not listening.");
      expect(await app.text(".rests")).toMatch(/“mark” wakes it\. The microphone stays open/);
      expect(await app.open()).toBe(1);
      await app.page.locator(".ear").click();
      await app.page.locator(".ear-off").waitFor();
      await expect.poll(() => app.open()).toBe(0);
      expect(await readings(app)).toHaveLength(2);
      expect(app.errors).toEqual([]);
    },
  ));

test("beside the recogniser: a phrase is logged once, “stop listening” lets its microphone go, “mark” wakes it", () =>
  withApp(
    { prepare: (context) => seatMouth(context, [READING, "stop listening", "mark"], "slt") },
    async (app) => {
      await app.startVisit();
      await app.listen();
      await app.keyWords();
      await until(app, READING, ".line");
      expect(await readings(app)).toEqual(["co2 9.2, high, offline"]);
      expect(await app.open()).toBe(2);
      await until(app, "stop listening", ".ear-resting");
      await expect.poll(() => app.open()).toBe(1);
      await expect.poll(() => app.earWorkers()).toEqual([]);
      await ownWordsOver(app);
      await until(app, "mark", ".ear-listening");
      await expect.poll(() => app.open()).toBe(2);
      await app.page.getByRole("button", { name: "To the start" }).click();
      await expect.poll(() => app.open()).toBe(0);
      await expect.poll(() => app.earWorkers()).toEqual([]);
      expect(app.errors).toEqual([]);
    },
  ));
