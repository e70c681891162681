import { expect, test } from "vitest";
import { exportVoice } from "../../src/app/own-voice/voice-file.ts";
import { CLASSES } from "../../src/device/spotter/words.ts";
import { type App, withApp } from "./app.ts";
import { deafPlatform, says, seatMouth } from "./mouth.ts";
import { ownVoice } from "./speaking-person.ts";

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

/** A voice that was taught so that whatever is said sounds like "mark": such as nobody has. */
async function marksAll(): Promise<string> {
  const voice = await ownVoice();
  const { head } = voice.spotter;
  const bias = Float32Array.from(CLASSES, (word) => (word === "mark" ? 20 : 0));
  const all = { ...head, kernel: head.kernel.map(() => 0), bias };
  return exportVoice({ ...voice, spotter: { ...voice.spotter, head: all } });
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
      await expect
        .poll(async () => (await app.spoken()).slice(-2))
        .toEqual(["Not listening.", "Key words are still heard: mark wakes it."]);
      expect(await app.text(".rests")).toMatch(/“mark” wakes it\. The microphone stays open/);
      expect(await app.open()).toBe(1);
      await app.page.locator(".ear").click();
      await app.page.locator(".ear-off").waitFor();
      await expect.poll(() => app.open()).toBe(0);
      expect(await readings(app)).toHaveLength(2);
      expect(app.errors).toEqual([]);
    },
  ));

test("at the boiler it listens with the voice that was chosen", () =>
  withApp(
    {
      prepare: async (context) => {
        await seatMouth(context, ["seven"], "slt");
        await context.addInitScript(deafPlatform);
      },
    },
    async (app) => {
      const { page } = app;
      await page.locator(".settings summary").click();
      await page.locator(".own-voice-people input[type=file]").setInputFiles({
        name: "v.json",
        mimeType: "application/json",
        buffer: Buffer.from(await marksAll()),
      });
      await page.getByRole("radio", { name: "Ada Quill" }).waitFor();
      const [{ id }] = (await app.table("voices")) as [{ id: string }];
      await app.changeSettings({ ear: "platform", platformMaySend: true, speaker: id });
      await app.startVisit();
      await app.listen();
      await app.keyWords();
      await app.type("stop listening");
      await page.locator(".ear-resting").waitFor();
      // Until no quiet is taken for a word any more: behind the app's own voice it would be.
      await page.waitForTimeout(3000);
      await until(app, "seven", ".ear-listening");
      expect(await app.texts(".answer")).toEqual([""]);
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
