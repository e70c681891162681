import type { CDPSession } from "playwright-core";
import { createResampler } from "../../../src/device/ears/offline/resample.ts";
import type { App } from "../../browser/app.ts";
import { withMicrophone } from "../../browser/microphone.ts";
import { speak } from "../../support/speech/speak.ts";
import { TALK } from "../hearing/phrases.ts";
import { flatness, type Margin } from "./flat.ts";

/** What the page holds, after everything that nothing refers to was collected. */
interface PageHeld {
  /** Bytes of the page's own heap. */
  readonly heap: number;
  readonly nodes: number;
  readonly listeners: number;
  /** Of TensorFlow.js in the recogniser's thread. */
  readonly tensors: number;
}

const MARGINS: Readonly<Record<keyof PageHeld, Margin>> = {
  heap: { share: 0.05, amount: 2 ** 20, unit: "MiB" },
  nodes: { share: 0, amount: 20, unit: "" },
  listeners: { share: 0, amount: 5, unit: "" },
  tensors: { share: 0, amount: 0, unit: "" },
};

const MICROPHONE_RATE = 48_000;
/** Steers, and logs nothing: the visit stays as long as it is. */
const ANSWERED = "what's next";
const GAP_SECONDS = 3;
const MINUTES = 5;

/**
 * The built app listening in Chromium to stretches of sound, put in where the microphone's would come out, as fast as the
 * recogniser's thread takes them: talk that is not for the log, and a question now and then. Whether what the page holds stayed the
 * same.
 */
export async function soakPage(stretches: number, print: (line: string) => void): Promise<boolean> {
  const sounds = await spoken();
  const samples: PageHeld[] = [];
  let heard = 0;
  await withMicrophone({ phrases: [], before: 1 }, async (app) => {
    await app.page.addInitScript({ content: IN_PLACE_OF_THE_MICROPHONE });
    await app.load();
    await app.startVisit();
    await app.type("high fire CO2 nine point two, CO forty");
    await app.listen();
    for (const sound of sounds)
      await app.page.evaluate(`soak.keep("${Buffer.from(sound.buffer).toString("base64")}")`);
    const cdp = await app.page.context().newCDPSession(app.page);
    await cdp.send("Performance.enable");
    print("minutes  heap MiB  nodes  listeners  tensors  utterances");
    for (let stretch = 1; stretch <= stretches; stretch += 1) {
      for (let minute = 0; minute < MINUTES; minute += 1)
        await app.page.evaluate(`soak.hear(60, ${GAP_SECONDS})`);
      const now = await held(app, cdp);
      samples.push(now);
      heard = await app.page.evaluate("soak.heard");
      const row = [
        stretch * MINUTES,
        (now.heap / 2 ** 20).toFixed(2),
        now.nodes,
        now.listeners,
        now.tensors,
        heard,
      ];
      print(row.map((cell, at) => String(cell).padStart([7, 8, 5, 9, 7, 10][at] ?? 0)).join("  "));
    }
    for (const error of app.errors) print(`the page: ${error}`);
    if (app.errors.length > 0) heard = 0;
  });
  const { ok, lines } = flatness(samples, MARGINS);
  for (const line of lines) print(`page, ${line}`);
  return ok && heard > 0;
}

async function spoken(): Promise<Float32Array[]> {
  const texts = [...TALK.slice(0, 8), ANSWERED, ANSWERED];
  const resampler = await createResampler(16_000, MICROPHONE_RATE, "whole");
  const sounds: Float32Array[] = [];
  for (const text of texts) sounds.push(resampler.resample((await speak(text, "rms")).samples));
  resampler.destroy();
  return sounds;
}

async function held(app: App, cdp: CDPSession): Promise<PageHeld> {
  for (let round = 0; round < 3; round += 1) await cdp.send("HeapProfiler.collectGarbage");
  const { metrics } = await cdp.send("Performance.getMetrics");
  const of = (name: string) => metrics.find((metric) => metric.name === name)?.value ?? Number.NaN;
  const [worker] = app.earWorkers();
  if (!worker) throw new Error("Expected the recogniser's thread, found none.");
  const tensors: number = await worker.evaluate("_tfengine.state.numTensors");
  return { heap: of("JSHeapUsedSize"), nodes: of("Nodes"), listeners: of("JSEventListeners"), tensors };
}

/** Script that runs before the app's: sound goes to the recogniser from here, and no faster than it says how loud it was. */
const IN_PLACE_OF_THE_MICROPHONE = `{
  const RATE = ${MICROPHONE_RATE};
  const BLOCK = RATE / 10;
  const AHEAD = 20;
  let port = null;
  let levels = 0;
  let next = 0;
  const sounds = [];
  globalThis.AudioWorkletNode = class {
    port = { postMessage: (to) => { port = to; } };
  };
  AudioContext.prototype.createMediaStreamSource = () => ({ connect() {} });
  globalThis.Worker = class extends Worker {
    constructor(...of) {
      super(...of);
      this.addEventListener("message", ({ data }) => {
        if (data.kind === "level") levels += 1;
        if (data.kind === "utterance") soak.heard += 1;
      });
    }
  };
  const put = async (block) => {
    port.postMessage(block);
    put.sent += block.length / RATE;
    while (put.sent * 5 - levels > AHEAD) await new Promise((resolve) => setTimeout(resolve, 5));
  };
  put.sent = 0;
  globalThis.soak = {
    heard: 0,
    keep: (text) => {
      const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
      sounds.push(new Float32Array(bytes.buffer));
    },
    hear: async (seconds, gap) => {
      let left = seconds;
      while (left > 0) {
        const sound = sounds[next % sounds.length];
        next += 1;
        for (let at = 0; at < sound.length; at += BLOCK) await put(sound.slice(at, at + BLOCK));
        for (let quiet = 0; quiet < gap * 10; quiet += 1)
          await put(Float32Array.from({ length: BLOCK }, () => (Math.random() - 0.5) * 0.002));
        left -= sound.length / RATE + gap;
      }
    },
  };
}`;
