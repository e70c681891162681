import { rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { columnOf } from "../../src/device/spotter/spectrogram.ts";
import type { Spotter, SpotterEvent } from "../../src/device/spotter/spotter.ts";
import { BINS, CLASSES, COLUMNS, SPOTTER_RATE } from "../../src/device/spotter/words.ts";
import { type Launched, type LaunchOptions, launchBrowser } from "../support/browser/launch.ts";
import { type Served, serveApp } from "../support/browser/serve.ts";
import { buildSpotterPage } from "../support/browser/spotter-page/build.ts";
import type { KeyWords } from "../support/browser/spotter-page/page.ts";
import { numbersLanguage } from "../support/speech/numbers-language.ts";
import { speak, wavOf } from "../support/speech/speak.ts";
import { keepTracks } from "./app.ts";
import { envelopeOf, likeness } from "./clip-sound.ts";

// The key words in a real browser: the library's microphone, its model, its training; held to the app's policy.

/** What the page keeps between two calls from here. */
interface InPage {
  keyWords: KeyWords;
  spotter: Spotter;
  heard: SpotterEvent[];
  tracks: MediaStreamTrack[];
  interrupt: () => Promise<void>;
}

const RATE = 16_000;
/** A tone that comes and goes, in hiss. */
const tone = (seconds: number, rate = RATE): Float32Array =>
  Float32Array.from({ length: seconds * rate }, (_, at) => {
    const on = Math.floor((2 * at) / rate) % 2 === 0;
    return 0.1 * ((on ? Math.sin(0.06 * at) : 0) + 0.01 * Math.sin(at * at));
  });

let folder: string;
let served: Served;
let page: Page;
let launched: Launched;
const [errors, said]: [string[], string[]] = [[], []];

async function open(samples: Float32Array, options: LaunchOptions = {}): Promise<[Launched, Page]> {
  const microphone = join(folder, `${samples.length}.wav`);
  await writeFile(microphone, wavOf({ rate: RATE, samples }));
  const browser = await launchBrowser({ ...options, microphone });
  const opened = await browser.context.newPage();
  opened.on("pageerror", (error) => errors.push(String(error)));
  opened.on("console", (message) => said.push(message.text()));
  await opened.addInitScript(keepTracks);
  await opened.goto(served.url);
  return [browser, opened];
}

beforeAll(async () => {
  folder = await buildSpotterPage();
  served = await serveApp(folder);
  [launched, page] = await open(tone(40));
});
beforeEach(async () => {
  await page.goto(served.url);
});
afterEach(() => {
  expect(errors).toEqual([]);
  expect(said).toEqual([]);
  expect(served.refused).toEqual([]);
});
afterAll(async () => {
  await launched.close();
  await served.close();
  await rm(folder, { recursive: true, force: true });
});

/** Does it in a browser of its own, whose microphone is another. */
async function elsewhere(
  samples: Float32Array,
  options: LaunchOptions,
  work: (other: Page) => Promise<void>,
): Promise<void> {
  const [browser, other] = await open(samples, options);
  try {
    await work(other);
  } finally {
    await browser.close();
  }
}

/** Starts to listen; what is heard is kept in the page. */
const listen = (page: Page) =>
  page.evaluate(async () => {
    const here = globalThis as unknown as InPage;
    here.heard = [];
    here.spotter = here.keyWords.createSpotter(here.keyWords.fetchBaseModel);
    await here.spotter.listen((event) => here.heard.push(event));
  });
const stop = (page: Page) => page.evaluate(() => (globalThis as unknown as InPage).spotter.stop());
const kinds = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as InPage).heard.map(({ kind }) => kind));
const tracks = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as InPage).tracks.map(({ readyState }) => readyState));
/** The one problem that was told, once there is one. */
async function problem(page: Page): Promise<string> {
  const problems = () =>
    page.evaluate(() =>
      (globalThis as unknown as InPage).heard.flatMap((event) =>
        event.kind === "problem" ? [event.message] : [],
      ),
    );
  await expect.poll(async () => (await problems()).length, { timeout: 15_000 }).toBe(1);
  return (await problems()).join();
}

test("listening starts, windows come about five a second, and stopping lets the microphone go", async () => {
  await listen(page);
  expect(await kinds(page)).toEqual(["listening"]);
  expect(await tracks(page)).toEqual(["live"]);
  await expect
    .poll(async () => (await kinds(page)).filter((kind) => kind === "window").length, { timeout: 15_000 })
    .toBeGreaterThan(10);
  const windows = await page.evaluate(() =>
    (globalThis as unknown as InPage).heard.flatMap((event) =>
      event.kind === "window"
        ? [
            {
              scores: [...event.scores],
              columns: event.spectrogram.length,
              filledUp: event.spectrogram.some((level) => level === 0),
              finite: event.spectrogram.every(Number.isFinite),
              at: event.at,
            },
          ]
        : [],
    ),
  );
  for (const { scores, columns, filledUp, finite } of windows) {
    expect(scores).toHaveLength(CLASSES.length);
    expect(scores.reduce((sum, score) => sum + score, 0)).toBeCloseTo(1, 3);
    expect([columns, filledUp, finite]).toEqual([COLUMNS * BINS, false, true]);
  }
  const [first, last] = [windows.at(0)?.at ?? 0, windows.at(-1)?.at ?? 0];
  const apart = (last - first) / (windows.length - 1);
  // Nine columns of 23.2 ms; a busy machine is late.
  expect(apart).toBeGreaterThan(150);
  expect(apart).toBeLessThan(600);
  await stop(page);
  expect((await kinds(page)).at(-1)).toBe("stopped");
  expect(await tracks(page)).toEqual(["ended"]);
  // It opens anew, and it is let go too where it is stopped before it is open.
  await listen(page);
  await stop(page);
  await page.evaluate(async () => {
    const here = globalThis as unknown as InPage;
    const opening = here.spotter.listen((event) => here.heard.push(event));
    await here.spotter.stop();
    await opening;
  });
  expect((await kinds(page)).at(-1)).toBe("stopped");
  await expect.poll(() => tracks(page)).not.toContain("live");
});

test("a microphone that is refused is one sentence", () =>
  elsewhere(tone(1), { allowed: false }, async (other) => {
    await listen(other);
    expect(await problem(other)).toBe(
      "The microphone is not allowed: allow it for this page in the browser's settings, or type.",
    );
    expect(await kinds(other)).toEqual(["problem"]);
  }));

test("a microphone that is lost is one sentence at once, and is let go", async () => {
  await listen(page);
  // What a pulled plug does: the track is over, and says so.
  await page.evaluate(() => {
    for (const track of (globalThis as unknown as InPage).tracks) {
      track.stop();
      track.dispatchEvent(new Event("ended"));
    }
  });
  expect(await problem(page)).toBe("The microphone was lost: plug it in and start listening again, or type.");
  expect(await tracks(page)).toEqual(["ended"]);
});

test("sound that is interrupted is one sentence, and the microphone is let go", async () => {
  await page.evaluate(() => {
    const Native = AudioContext;
    globalThis.AudioContext = class extends Native {
      constructor(options?: AudioContextOptions) {
        super(options);
        Object.assign(globalThis, { interrupt: () => this.suspend() });
      }
    };
  });
  await listen(page);
  await page.evaluate(() => (globalThis as unknown as InPage).interrupt());
  expect(await problem(page)).toBe(
    "No sound comes from the microphone, it may be muted: switch it on and start listening again, or type.",
  );
  expect(await tracks(page)).toEqual(["ended"]);
});

test("a microphone that gives digital silence is one sentence after two seconds, and is let go", () =>
  elsewhere(new Float32Array(RATE), {}, async (other) => {
    await listen(other);
    expect(await problem(other)).toBe(
      "No sound comes from the microphone, it may be muted: switch it on and start listening again, or type.",
    );
    expect(await tracks(other)).toEqual(["ended"]);
  }));

test("a model that does not load is one sentence, and the microphone is not opened", async () => {
  await page.evaluate(async () => {
    const here = globalThis as unknown as InPage;
    here.heard = [];
    here.spotter = here.keyWords.createSpotter(() => Promise.reject(new Error("no such file")));
    await here.spotter.listen((event) => here.heard.push(event));
  });
  expect(await problem(page)).toBe(
    "The key words could not be loaded: reload the page while online, or type.",
  );
  expect(await tracks(page)).toEqual([]);
});

test("columns are those of the browser's own AnalyserNode: to 0.01 dB, down to 100 dB under the highest", async () => {
  const samples = tone(1, SPOTTER_RATE).map((sample, at) => sample + 0.02 * Math.sin(0.3 * at));
  // Ends of columns, in samples; the browser stops at multiples of 128.
  const ends = [2048, 4096, 10_240, 30_720];
  const theirs = await page.evaluate(
    async ([sound, rate, stops]) => {
      const context = new OfflineAudioContext(1, sound.length, rate);
      const buffer = context.createBuffer(1, sound.length, rate);
      buffer.getChannelData(0).set(sound);
      const source = new AudioBufferSourceNode(context, { buffer });
      const analyser = new AnalyserNode(context, { fftSize: 2048, smoothingTimeConstant: 0 });
      source.connect(analyser).connect(context.destination);
      source.start();
      const columns: number[][] = [];
      for (const end of stops)
        void context.suspend(end / rate).then(() => {
          const levels = new Float32Array(1024);
          analyser.getFloatFrequencyData(levels);
          columns.push([...levels]);
          return context.resume();
        });
      await context.startRendering();
      return columns;
    },
    [[...samples], SPOTTER_RATE, ends] as const,
  );
  expect(theirs).toHaveLength(ends.length);
  for (const [at, end] of ends.entries()) {
    const ours = columnOf(samples, end);
    const highest = Math.max(...ours);
    const off = ours.map((level, bin) =>
      level < highest - 100 ? 0 : Math.abs(level - (theirs[at]?.[bin] ?? Number.NaN)),
    );
    expect(Math.max(...off)).toBeLessThan(0.01);
  }
});

test("teaching runs in a worker, tells how far it is, and what it brought", async () => {
  const { outcome, fractions, fits } = await page.evaluate(async () => {
    const { keyWords } = globalThis as unknown as InPage;
    const base = await keyWords.fetchBaseModel();
    const fractions: number[] = [];
    const outcome = await keyWords.startTeaching(
      { base, takes: keyWords.madeTakes(4, 22, 1), heldBack: keyWords.madeTakes(2, 22, 2), options: {} },
      (fraction) => fractions.push(fraction),
    ).outcome;
    const fits = outcome.kind === "taught" && keyWords.applyTaught(base, outcome.taught).ok;
    return { outcome: { ...outcome, taught: null }, fractions, fits };
  });
  expect(outcome).toMatchObject({ kind: "taught", gain: { heldBack: 2 * CLASSES.length } });
  expect(fits).toBe(true);
  expect(fractions.at(-1)).toBe(1);
  expect(fractions).toEqual(fractions.toSorted((a, b) => a - b));
  await expect.poll(() => page.workers().length, { timeout: 10_000 }).toBe(0);
});

test("teaching that is cancelled ends at once, and so does what cannot be taught", async () => {
  const outcomes = await page.evaluate(async () => {
    const { keyWords } = globalThis as unknown as InPage;
    const base = await keyWords.fetchBaseModel();
    const request = { base, heldBack: [], options: { epochs: 1000 } };
    let begun: () => void = () => undefined;
    const running = new Promise<void>((resolve) => {
      begun = resolve;
    });
    const teaching = keyWords.startTeaching({ ...request, takes: keyWords.madeTakes(2) }, () => begun());
    await running;
    teaching.cancel();
    const none = keyWords.startTeaching({ ...request, takes: [] }, () => undefined);
    return [await teaching.outcome, await none.outcome];
  });
  expect(outcomes).toEqual([
    { kind: "cancelled" },
    { kind: "failed", reason: "Expected takes of two classes at least." },
  ]);
  await expect.poll(() => page.workers().length, { timeout: 10_000 }).toBe(0);
});

test("learning from phrases runs in a worker on clips as they are kept, and is cancelled at once", async () => {
  const { samples } = await speak("nine");
  const { language, said } = { language: numbersLanguage(), said: [...samples.subarray(0, 0.3 * RATE)] };
  const learned = await page.evaluate(
    async ({ language, said }) => {
      const { keyWords } = globalThis as unknown as InPage;
      const { createClipEncoder, decodedClip, decodedRows, wavClip } = keyWords;
      const wav = await decodedClip(wavClip(Float32Array.from(said)));
      const row = { clip: await createClipEncoder().encode(wav), text: "nine" };
      const [{ sound } = { sound: wav }] = await decodedRows([row], decodedClip, 16_000);
      const clips = (count: number) => Array.from({ length: count }, () => ({ sound, text: "nine" }));
      const fractions: number[] = [];
      const learning = keyWords.startAdapting({ language, clips: clips(30) }, (one) => fractions.push(one));
      const outcome = await learning.outcome;
      const few = await keyWords.startAdapting({ language, clips: clips(3) }, () => undefined).outcome;
      const cancelled = keyWords.startAdapting({ language, clips: clips(80) }, () => undefined);
      cancelled.cancel();
      const { type } = row.clip;
      return {
        wav: [...wav],
        type,
        opus: [...sound],
        outcome,
        few,
        cancelled: await cancelled.outcome,
        fractions,
      };
    },
    { language, said },
  );
  expect(learned.wav).toHaveLength(said.length);
  expect(Math.max(...learned.wav.map((one, at) => Math.abs(one - (said[at] ?? 0))))).toBeLessThan(1e-3);
  expect(learned.type).toBe("audio/ogg; codecs=opus");
  expect(Math.abs(learned.opus.length - said.length)).toBeLessThan(0.04 * RATE);
  expect(
    likeness(envelopeOf(Float32Array.from(said)), envelopeOf(Float32Array.from(learned.opus))),
  ).toBeGreaterThan(0.95);
  const base = expect.stringMatching(/^[\w-]{43}$/);
  expect(learned.outcome).toMatchObject({
    kind: expect.stringMatching(/better$/),
    base,
    gain: { heldBack: 18 },
  });
  expect(learned.few).toEqual({ kind: "too-few", found: 3, base });
  expect(learned.cancelled).toEqual({ kind: "cancelled" });
  expect(learned.fractions.at(-1)).toBe(1);
  expect(learned.fractions).toEqual(learned.fractions.toSorted((a, b) => a - b));
  // The worker that encodes clips stays, for the next.
  await expect.poll(() => page.workers().length, { timeout: 10_000 }).toBe(1);
});
