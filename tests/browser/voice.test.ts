import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { spokenText } from "../../src/answer/spoken.ts";
import { createSynthesiser } from "../../src/device/voice/synthesise.ts";
import { wavOf } from "../support/speech/speak.ts";
import { loadVoice } from "../support/speech/voice-program.ts";
import { type App, withApp } from "./app.ts";

// A headless browser has no voices: the packaged one has to speak.

const READING = "high fire CO2 nine point two, CO forty";

/** What the page did with its sound, in order. */
type Sounded =
  | { readonly kind: "tone" }
  | { readonly kind: "voice"; readonly rate: number; readonly samples: readonly number[] };

/** Runs in the page before the app: writes down tones and voices, and measures what goes to the loudspeaker. */
function eavesdrop(): void {
  const sounded: Sounded[] = [];
  const meters: AnalyserNode[] = [];
  Object.assign(globalThis, {
    sounded,
    loudness: () =>
      Math.max(
        0,
        ...meters.flatMap((meter) => {
          const window = new Float32Array(meter.fftSize);
          meter.getFloatTimeDomainData(window);
          return [...window.map(Math.abs)];
        }),
      ),
  });
  const { connect } = AudioNode.prototype;
  AudioNode.prototype.connect = function (this: AudioNode, to: AudioNode | AudioParam, ...rest: number[]) {
    if (to instanceof AudioDestinationNode) {
      const meter = new AnalyserNode(this.context, { fftSize: 256 });
      meters.push(meter);
      Reflect.apply(connect, this, [meter]);
    }
    return Reflect.apply(connect, this, [to, ...rest]);
  } as typeof connect;
  const { start: startTone } = OscillatorNode.prototype;
  OscillatorNode.prototype.start = function (...when) {
    sounded.push({ kind: "tone" });
    return startTone.apply(this, when);
  };
  const { start: startVoice } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (...when) {
    const { buffer } = this;
    if (buffer) {
      sounded.push({ kind: "voice", rate: buffer.sampleRate, samples: [...buffer.getChannelData(0)] });
    }
    return startVoice.apply(this, when);
  };
}

interface Overheard {
  readonly sounded: Sounded[];
  readonly loudness: () => number;
}

const sounded = (app: App) => app.page.evaluate(() => (globalThis as unknown as Overheard).sounded);
const quiet = (app: App) =>
  app.page.locator(".ear-area.speaking").waitFor({ state: "detached", timeout: 30_000 });

async function withEavesdrop(work: (app: App) => Promise<void>): Promise<void> {
  await withApp({ platformVoice: false }, async (app) => {
    await app.page.addInitScript(eavesdrop);
    await app.load();
    await work(app);
  });
}

test("without a platform voice the packaged one speaks, fetched with its first text and from the own origin", () =>
  withEavesdrop(async (app) => {
    const fetched = () => app.requests.filter((url) => /flite|voice/.test(url));
    await app.startVisit();
    expect(fetched()).toEqual([]);
    await app.type(READING);
    await quiet(app);

    const { origin } = new URL(app.served.url);
    expect(fetched().some((url) => url.endsWith(".wasm"))).toBe(true);
    expect(app.requests.filter((url) => !url.startsWith(origin) && !url.startsWith("blob:"))).toEqual([]);
    expect(app.errors).toEqual([]);

    // What was played is what the same modules make of the answer in Node.
    const [tone, ...voices] = await sounded(app);
    expect(tone).toEqual({ kind: "tone" });
    const synthesise = createSynthesiser(await loadVoice());
    const sentences = spokenText(await app.text(".answer")).split(/(?<=[.?!]) /);
    expect(voices).toHaveLength(sentences.length);
    for (const [i, sentence] of sentences.entries()) {
      const { samples, rate } = await synthesise(sentence);
      const played = voices[i];
      if (played?.kind !== "voice")
        throw new Error(`Expected a voice for “${sentence}”, found ${played?.kind}.`);
      expect([played.rate, played.samples.length]).toEqual([rate, samples.length]);
      const off = played.samples.map((sample, at) => Math.abs(sample - (samples[at] ?? 2)));
      expect(Math.max(...off)).toBeLessThan(1e-4);
    }
  }));

test("the tones say what kind of answer follows: asking two, warning three", () =>
  withEavesdrop(async (app) => {
    await app.startVisit();
    const tonesFor = async (phrase: string) => {
      const before = (await sounded(app)).length;
      await app.type(phrase);
      await quiet(app);
      const kinds = (await sounded(app)).slice(before).map(({ kind }) => kind);
      // All of them before the first word.
      expect(kinds.lastIndexOf("tone")).toBeLessThan(kinds.indexOf("voice"));
      return kinds.filter((kind) => kind === "tone").length;
    };
    expect(await tonesFor("high fire")).toBe(1);
    expect(await tonesFor("CO2 ninety two")).toBe(2);
    expect(await tonesFor("CO four hundred")).toBe(3);
  }));

test("it falls silent within 50 ms", () =>
  withEavesdrop(async (app) => {
    await app.startVisit();
    await app.type(READING);
    const loudAndAfter = await app.page.evaluate(async () => {
      const { loudness } = globalThis as unknown as Overheard;
      const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
      // Louder than any tone: the voice.
      while (loudness() < 0.3) await pause(1);
      const leave = [...document.querySelectorAll("button")].find((b) => b.textContent === "To the start");
      leave?.click();
      await pause(50);
      return loudness();
    });
    expect(loudAndAfter).toBe(0);
  }));

/** Runs in the page before the app: keeps what it registers for the headset's button, and what it plays. */
function keepButton(): void {
  const handlers: Record<string, (() => void) | null> = {};
  const playing: HTMLMediaElement[] = [];
  Object.assign(globalThis, { handlers, playing });
  const { setActionHandler } = MediaSession.prototype;
  MediaSession.prototype.setActionHandler = function (action, handler) {
    handlers[action] = handler && (() => handler({ action }));
    return setActionHandler.call(this, action, handler);
  };
  const { play } = HTMLMediaElement.prototype;
  HTMLMediaElement.prototype.play = function () {
    playing.push(this);
    return play.call(this);
  };
}

interface Kept {
  readonly handlers: Readonly<Record<string, (() => void) | null>>;
  readonly playing: readonly HTMLMediaElement[];
}

test("a headset's button starts and stops listening while a visit runs", async () => {
  const folder = await mkdtemp(join(tmpdir(), "burnerside-button-"));
  const microphone = join(folder, "quiet.wav");
  try {
    await writeFile(microphone, wavOf({ samples: new Float32Array(48_000), rate: 48_000 }));
    await withApp({ microphone }, async (app) => {
      await app.page.addInitScript(keepButton);
      await app.load();
      const press = (action: string) =>
        app.page.evaluate((name) => (globalThis as unknown as Kept).handlers[name]?.(), action);
      const state = () => app.page.evaluate(() => navigator.mediaSession.playbackState);
      const silence = () =>
        app.page.evaluate(() =>
          (globalThis as unknown as Kept).playing.map(({ paused, loop, duration }) => ({
            paused,
            loop,
            long: duration > 5,
          })),
        );
      const registered = () =>
        app.page.evaluate(() =>
          Object.entries((globalThis as unknown as Kept).handlers).flatMap(([name, own]) =>
            own ? [name] : [],
          ),
        );
      expect([await registered(), await silence()]).toEqual([[], []]);

      await app.startVisit();
      expect(await registered()).toEqual(["play", "pause", "stop"]);
      await expect.poll(silence).toEqual([{ paused: false, loop: true, long: true }]);
      expect(await state()).toBe("paused");

      await press("play");
      await app.page.locator(".ear-listening").waitFor({ timeout: 60_000 });
      expect(await state()).toBe("playing");
      await press("pause");
      await app.page.locator(".ear-off").waitFor();
      expect(await state()).toBe("paused");

      await app.page.getByRole("button", { name: "To the start" }).click();
      await app.page.locator(".face").waitFor({ state: "detached" });
      expect(await registered()).toEqual([]);
      expect(await silence()).toEqual([{ paused: true, loop: true, long: true }]);
      expect(app.errors).toEqual([]);
    });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
