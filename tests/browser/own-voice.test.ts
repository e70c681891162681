import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { exportVoice, importVoice } from "../../src/app/own-voice/voice-file.ts";
import type { VoiceProfile } from "../../src/device/spotter/voice-profile.ts";
import { voiceOf } from "../app/own-voice/voices.ts";
import { type App, withApp } from "./app.ts";
import { withMicrophone } from "./microphone.ts";
import { ownVoice, seatPerson } from "./speaking-person.ts";

// A voice is taught in a real Chromium, by the model that ships.

async function open(app: App): Promise<void> {
  await app.page.goto(`${app.served.url}#/own-voice`);
  await app.page.getByLabel("Your name").fill("Ada Quill");
}

const start = (app: App) => app.page.getByRole("button", { name: "Start", exact: true }).click();
const told = (app: App) => app.text(".own-voice-told");

/** What the notebook holds of people's voices. */
const voices = (app: App) => app.table("voices") as Promise<VoiceProfile[]>;

test("read, learned, measured: what came of it is told, and kept only where it is not worse", () =>
  withApp(
    { prepare: (context) => seatPerson(context, [{ ask: 2, tries: 1, volume: 0.001 }]) },
    async (app) => {
      const { page } = app;
      await open(app);
      await start(app);
      await page.locator(".own-voice-sentence", { hasText: "Say nothing" }).waitFor();
      await page.locator(".own-voice-word", { hasText: /^(yes|no)$/ }).waitFor();
      await page.locator(".own-voice-trouble", { hasText: /^(Too soft|Nothing was heard)/ }).waitFor();
      await page.locator(".own-voice-sentence", { hasText: "The cat slept" }).waitFor({ timeout: 30_000 });
      await page.getByRole("progressbar", { name: "How far the learning is" }).waitFor();
      await page.locator(".own-voice-told").waitFor({ timeout: 60_000 });
      const [, heldBack, before, after] =
        /of (\d+) takes held back, (\d+) were right before and (\d+) are now/.exec(await told(app)) ?? [];
      // A take of each word, and some of the noise and of the sentence.
      expect(Number(heldBack)).toBeGreaterThanOrEqual(4);
      const kept = await voices(app);
      expect(kept.map(({ name }) => name)).toEqual(Number(after) >= Number(before) ? ["Ada Quill"] : []);
      expect(await app.tracks()).toEqual(["ended"]);
      expect(app.errors).toEqual([]);
    },
  ));

test("a denied microphone is told at once, in a sentence, and nothing is kept", () =>
  withMicrophone(
    { phrases: [], before: 5 },
    async (app) => {
      await open(app);
      await app.page.getByLabel("Your name").fill(" ");
      await app.page.getByRole("button", { name: "Start", exact: true }).click({ force: true });
      expect(await app.text("form [role=status]")).toBe("First give a name.");
      expect(
        await app.page.getByLabel("Your name").evaluate((field) => field === document.activeElement),
      ).toBe(true);
      await open(app);
      await start(app);
      expect(await told(app)).toBe(
        "The microphone is not allowed: allow it for this page in the browser's settings, or type. Nothing was kept.",
      );
      expect(await voices(app)).toEqual([]);
    },
    { allowed: false },
  ));

test("a lost microphone and a tap on Cancel end it; nothing is kept, and it can be started again", () =>
  withApp({ prepare: (context) => seatPerson(context) }, async (app) => {
    const { page } = app;
    await open(app);
    await start(app);
    await page.locator(".own-voice-word").waitFor();
    await page.evaluate(() => {
      for (const track of (globalThis as unknown as { tracks: MediaStreamTrack[] }).tracks) {
        track.stop();
        track.dispatchEvent(new Event("ended"));
      }
    });
    expect(await told(app)).toMatch(/^The microphone was lost.* Nothing was kept\.$/);
    await page.getByRole("button", { name: "Start again" }).click();
    await page.locator(".own-voice-sentence", { hasText: "Say nothing" }).waitFor();
    await page.getByRole("button", { name: "Cancel" }).click();
    expect(await told(app)).toBe("Cancelled. Nothing was kept.");
    await page.getByRole("button", { name: "To the start" }).click();
    await page.locator(".start").waitFor();
    expect([await app.tracks(), await voices(app)]).toEqual([["ended", "ended"], []]);
    expect(app.errors).toEqual([]);
  }));

test("a page that is closed while it learns leaves nothing behind", () =>
  withApp(
    {
      prepare: (context) =>
        seatPerson(context, [], { noiseSeconds: 1, words: ["yes"], takes: 2, sentences: [] }),
    },
    async (app) => {
      await open(app);
      await start(app);
      await app.page.getByRole("progressbar", { name: "How far the learning is" }).waitFor();
      await app.load();
      expect(await voices(app)).toEqual([]);
      expect(app.errors).toEqual([]);
    },
  ));

test("people share a device: brought in, exported as they came, switched off, deleted with one tap, and back", () =>
  withApp({}, async (app) => {
    const { page } = app;
    const ada = await ownVoice();
    const bringIn = async (text: string) => {
      await page
        .locator(".own-voice-people input[type=file]")
        .setInputFiles({ name: "v.json", mimeType: "application/json", buffer: Buffer.from(text) });
      return app.text(".own-voice-people .notice li");
    };
    await page.locator(".settings summary").click();
    expect(await bringIn(exportVoice(voiceOf()))).toBe(
      'The voice of "Ada Quill" was taught to an older ear: teach it again.',
    );
    await page.locator(".own-voice-people .notice button").click();
    expect(await bringIn(exportVoice(ada))).toBe(
      'The voice of "Ada Quill" is here now: choose it under “Who speaks now” to use it.',
    );

    await page.getByRole("radio", { name: "Ada Quill" }).check();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Export the voice of Ada Quill" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("own-voice-ada-quill.json");
    const exported = await readFile(await download.path());
    expect(importVoice(exported)).toEqual(importVoice(Buffer.from(exportVoice(ada))));

    await page.getByRole("button", { name: "Learn from the phrases of Ada Quill" }).click();
    await expect
      .poll(() => app.text(".own-voice-phrases [role=status]"))
      .toBe("Not enough yet: 0 of 30 confirmed phrases.");

    const stored = async () => (await voices(app)).map(({ name, on }) => [name, on]);
    await page.getByLabel("Use the voice of Ada Quill").uncheck();
    await expect.poll(stored).toEqual([["Ada Quill", false]]);
    await page.getByRole("button", { name: "Delete the voice of Ada Quill" }).click();
    await expect.poll(stored).toEqual([]);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(stored).toEqual([["Ada Quill", false]]);
    // Switched off it is still there after the page was loaded anew.
    await app.load();
    await page.locator(".settings summary").click();
    expect(await page.getByLabel("Use the voice of Ada Quill").isChecked()).toBe(false);
    await page.getByRole("button", { name: "Teach the voice of Ada Quill again" }).click();
    expect(await app.text(".own-voice-before")).toMatch(/The voice of Ada Quill is taught anew/);
    expect(app.errors).toEqual([]);
  }));
