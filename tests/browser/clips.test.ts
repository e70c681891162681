import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { FIRST_SETTINGS } from "../../src/app/settings.ts";
import { importVisit } from "../../src/record/bundle.ts";
import { speak } from "../support/speech/speak.ts";
import { type App, withApp } from "./app.ts";
import { type Decoded, decodeClips, envelopeOf, likeness } from "./clip-sound.ts";
import { keptSettings } from "./kept-settings.ts";
import { withMicrophone } from "./microphone.ts";

const VOICE = "rms";
const PHRASE = "high fire CO2 nine point two, CO forty";

/** Opens the app with a voice as its microphone, starts a visit, and waits until the phrase was answered and its sound kept. */
async function dictated(prepare: (app: App) => Promise<unknown>, work: (app: App) => Promise<void>) {
  await withMicrophone({ voice: VOICE, phrases: [PHRASE] }, async (app) => {
    await prepare(app);
    await app.startVisit();
    await app.listen();
    await app.page.locator(".answer", { hasText: /./ }).waitFor({ timeout: 60_000 });
    await app.page.locator(".play").first().waitFor();
    await work(app);
  });
}

/** What the page does with addresses of sound in memory, from now on. */
const watchUrls = (app: App) =>
  app.page.evaluate(() => {
    const urls = { made: [] as string[], let_go: [] as string[] };
    Object.assign(globalThis, { urls });
    const { createObjectURL, revokeObjectURL } = URL;
    URL.createObjectURL = (blob) => {
      const url = createObjectURL.call(URL, blob);
      urls.made.push(url);
      return url;
    };
    URL.revokeObjectURL = (url) => {
      urls.let_go.push(url);
      revokeObjectURL.call(URL, url);
    };
  });
const urls = (app: App) =>
  app.page.evaluate(() => (globalThis as unknown as { urls: { made: string[]; let_go: string[] } }).urls);

/** Plays the newest line's sound by keyboard and waits for its end; milliseconds that it took. */
async function played(app: App): Promise<number> {
  const button = app.page.getByRole("button", { name: /^(Play|Stop) the sound of “/ }).first();
  await button.focus();
  const before = performance.now();
  await app.page.keyboard.press("Enter");
  await app.page.locator(".play", { hasText: "Stop" }).first().waitFor();
  await app.page.locator(".play", { hasText: "Stop" }).first().waitFor({ state: "detached" });
  return performance.now() - before;
}

/** The sound that was spoken is what was kept, whole, and can be heard. */
async function checkSound(app: App): Promise<Decoded> {
  const [clip, ...more] = await app.page.evaluate(decodeClips);
  if (!clip) throw new Error("Expected a clip.");
  expect(more).toEqual([]);
  const [row] = await app.stored();
  expect(clip).toMatchObject({ seq: row?.seq, at: (row as unknown as { entry: { at: string } }).entry.at });

  const { samples, rate } = await speak(PHRASE, VOICE);
  expect(clip.seconds).toBeGreaterThan((samples.length / rate) * 0.8);
  expect(clip.seconds).toBeLessThan(samples.length / rate + 2);
  expect(Math.max(...clip.envelope)).toBeGreaterThan(0.02);
  // Its loudness rises and falls as that of the phrase does, and not as that of another.
  const other = await speak("O2 four point one, flue temperature fifty four", VOICE);
  const like = [samples, other.samples].map((sound) => likeness(envelopeOf(sound), clip.envelope));
  expect(like[0]).toBeGreaterThan(0.9);
  expect(like[1]).toBeLessThan(0.75);

  await watchUrls(app);
  const took = await played(app);
  expect(took).toBeGreaterThan(clip.seconds * 800);
  const { made, let_go } = await urls(app);
  expect(made).toHaveLength(1);
  expect(let_go).toEqual(made);
  expect(app.errors).toEqual([]);
  return clip;
}

const rows = (app: App) => app.table("clips") as Promise<{ seq: number; at: string }[]>;

async function openSettings(app: App): Promise<void> {
  await app.page.getByRole("button", { name: "To the start" }).click();
  await app.page.locator(".settings summary").click();
}

test("what was said is kept as Opus, played back, never exported, and gone when keeping is switched off", () =>
  dictated(
    async (app) => {
      expect(app.requests.filter((url) => /opus/.test(url))).toEqual([]);
    },
    async (app) => {
      const clip = await checkSound(app);
      expect(clip.type).toBe("audio/ogg; codecs=opus");
      // 16 to 24 kbit/s, and the container.
      expect((clip.bytes * 8) / clip.seconds).toBeLessThan(28_000);
      const lines = await app.texts(".line strong");
      const buttons = await app.page.locator(".play").count();
      expect(buttons).toBe(lines.length);

      const [download] = await Promise.all([
        app.page.waitForEvent("download"),
        app.page.getByRole("button", { name: "Export visit" }).click(),
      ]);
      const result = importVisit(await readFile(await download.path(), "utf8"));
      if (!result.ok) throw new Error(JSON.stringify(result.problems));
      expect(Object.keys(result.visit).sort()).toEqual(["entries", "format", "head", "integrity"]);
      expect(result.visit.entries).toEqual((await app.stored()).map((row) => row.entry));

      // A reload keeps it.
      await app.load();
      expect(await app.page.locator(".play").count()).toBe(buttons);

      await openSettings(app);
      const keep = app.page.locator("input[name=keep-clips]");
      await keep.click();
      expect(await app.text(".question")).toContain("deletes all kept sound");
      await app.page.getByRole("button", { name: "No, keep the sound" }).click();
      expect(await keep.isChecked()).toBe(true);
      expect(await rows(app)).toHaveLength(1);

      // A disk that refuses the deletion: then nothing has changed, the switch neither.
      await app.page.evaluate(() => {
        const { clear } = IDBObjectStore.prototype;
        IDBObjectStore.prototype.clear = () => {
          IDBObjectStore.prototype.clear = clear;
          throw new DOMException("no", "UnknownError");
        };
      });
      await keep.click();
      await app.page.getByRole("button", { name: /^Yes, delete it/ }).click();
      await app.page.locator(".notice-problem").waitFor();
      expect(await rows(app)).toHaveLength(1);
      expect(await keep.isChecked()).toBe(true);

      await keep.click();
      await app.page.getByRole("button", { name: /^Yes, delete it/ }).click();
      await app.page.locator(".question").waitFor({ state: "detached" });
      expect(await rows(app)).toEqual([]);
      expect(await keep.isChecked()).toBe(false);
      await app.load();
      await app.page.getByRole("button", { name: "Go on" }).click();
      await app.page.locator(".line").first().waitFor();
      expect(await app.texts(".line strong")).toEqual(lines);
      expect(await app.page.locator(".play").count()).toBe(0);
    },
  ));

test("where the encoder cannot be loaded the sound is kept as WAV, and plays", () =>
  dictated(
    (app) => app.launched.context.route(/opus\.worker/, (route) => route.abort()),
    async (app) => {
      // The refused load is an error of the page, and meant.
      app.errors.length = 0;
      const clip = await checkSound(app);
      expect(clip.type).toBe("audio/wav");
      expect(clip.bytes).toBe(44 + Math.round(clip.seconds * 16_000) * 2);
    },
  ));

/** Puts silent clips of these ages into IndexedDB past the app. */
const putClips = (app: App, days: readonly number[]) =>
  app.page.evaluate(
    (ages) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open("burnerside");
        opening.onsuccess = () => {
          const writing = opening.result.transaction("clips", "readwrite");
          for (const [seq, age] of ages.entries()) {
            const at = new Date(Date.now() - age * 86_400_000).toISOString();
            writing
              .objectStore("clips")
              .put({ visitId: "old", seq, at, type: "audio/wav", data: new ArrayBuffer(44) });
          }
          writing.onabort = () => reject(writing.error);
          writing.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    [...days],
  );

test("sound is deleted when it is older than the person wants it kept", () =>
  withApp({}, async (app) => {
    const left = async () => (await rows(app)).map(({ seq }) => seq);
    await putClips(app, [0, 6.9, 7.1, 29.9, 30.1, 89]);
    await app.load();
    await expect.poll(left).toEqual([0, 1, 2, 3]);
    await app.page.locator(".settings summary").click();
    await app.page.locator("input[name=clip-days][value='7']").check();
    await keptSettings(app, { clipDays: 7 });
    await app.load();
    await expect.poll(left).toEqual([0, 1]);
    await app.page.locator(".settings summary").click();
    expect(await app.page.locator("input[name=clip-days][value='7']").isChecked()).toBe(true);
  }));

test("keeping that was switched off in one window is not switched on by a choice in another", () =>
  withApp({}, async (app) => {
    const second = await app.launched.context.newPage();
    await second.goto(app.served.url);
    await second.locator(".settings summary").click();
    await app.page.locator(".settings summary").click();
    await app.page.locator("input[name=keep-clips]").click();
    await app.page.getByRole("button", { name: /^Yes, delete it/ }).click();
    await app.page.locator(".question").waitFor({ state: "detached" });
    await second.locator("input[name=talk][value=short]").check();
    await expect
      .poll(() => app.table("settings"))
      .toContainEqual({
        key: "settings",
        value: { ...FIRST_SETTINGS, welcomed: true, talk: "short", keepClips: false },
      });
    await second.locator("input[name=keep-clips]:not(:checked)").waitFor();
  }));
