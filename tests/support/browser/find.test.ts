import { chmod } from "node:fs/promises";
import { createServer, type Server } from "node:http";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { testFolder } from "../folder.ts";
import { findBrowser } from "./find.ts";
import { launchBrowser } from "./launch.ts";

const { path: folder, file } = testFolder();

describe("a browser is found", () => {
  afterEach(() => void vi.unstubAllEnvs());

  test("where BURNERSIDE_BROWSER says, before all others", async () => {
    const path = file("chromium", "#!/bin/sh\necho Chromium 1.0\n");
    await chmod(path, 0o755);
    vi.stubEnv("BURNERSIDE_BROWSER", path);
    expect(await findBrowser()).toEqual({ executablePath: path, args: [], env: {}, source: "environment" });
  });

  test("or else one sentence says what to do", async () => {
    vi.stubEnv("BURNERSIDE_BROWSER", "");
    await expect(findBrowser(["environment"])).rejects.toThrow(
      /^Expected a browser for the tests, found none \(tried: environment\): install Chromium or set BURNERSIDE_BROWSER to one\.$/,
    );
  });

  test("but never another than the one asked for", async () => {
    vi.stubEnv("BURNERSIDE_BROWSER", join(folder, "none"));
    await expect(findBrowser()).rejects.toThrow(
      `Expected BURNERSIDE_BROWSER to name a browser that starts, found ${join(folder, "none")}.`,
    );
  });
});

// Whatever browser this machine has, the one inside the npm package must do all that the tests need of it: it is the
// only one that a fresh machine is sure to have. It is built for Linux on x86-64.
describe.runIf(process.platform === "linux" && process.arch === "x64")("the packaged browser", () => {
  let server: Server;
  let url: string;
  beforeAll(async () => {
    server = createServer((request, response) => {
      const script = request.url === "/loudest.js";
      response.setHeader("content-type", script ? "text/javascript" : "text/html");
      response.end(script ? WORKLET : "<title>here</title>");
    });
    await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
    const address = server.address();
    url = typeof address === "object" && address ? `http://127.0.0.1:${address.port}/` : "";
  });
  afterAll(() => void server.close());

  test("runs WebAssembly, hears a WAV as its microphone, and keeps what it stored when killed", async () => {
    const microphone = file("tone.wav", tone());
    const browser = await findBrowser(["package"]);
    const options = { browser, microphone, profile: join(folder, "profile") };

    const first = await launchBrowser(options);
    const page = await opened(first.context.newPage());
    expect(await page.evaluate(ADD)).toBe(42);
    expect(await page.evaluate(LISTEN)).toBeGreaterThan(0.4);
    expect(await page.evaluate(STORE)).toBe("stored");
    await first.kill();

    const second = await launchBrowser(options);
    expect(await (await opened(second.context.newPage())).evaluate(RECALL)).toBe("kept");
    await second.close();
  }, 60_000);

  async function opened(coming: Promise<Page>): Promise<Page> {
    const page = await coming;
    await page.goto(url);
    return page;
  }
});

/** Three seconds of 440 Hz at half of full scale: RIFF WAVE, 16 bit, mono, 48 kHz. */
function tone(): Buffer {
  const rate = 48_000;
  const samples = 3 * rate;
  const wav = Buffer.alloc(44 + 2 * samples);
  wav.write("RIFF", 0);
  wav.writeUInt32LE(wav.length - 8, 4);
  wav.write("WAVEfmt ", 8);
  wav.writeUInt32LE(16, 16);
  wav.writeUInt16LE(1, 20);
  wav.writeUInt16LE(1, 22);
  wav.writeUInt32LE(rate, 24);
  wav.writeUInt32LE(2 * rate, 28);
  wav.writeUInt16LE(2, 32);
  wav.writeUInt16LE(16, 34);
  wav.write("data", 36);
  wav.writeUInt32LE(2 * samples, 40);
  for (let i = 0; i < samples; i++) {
    wav.writeInt16LE(Math.round(16_384 * Math.sin((2 * Math.PI * 440 * i) / rate)), 44 + 2 * i);
  }
  return wav;
}

const WORKLET = `registerProcessor("loudest", class extends AudioWorkletProcessor {
  process([[channel]]) {
    if (channel) this.port.postMessage(Math.max(...channel.map(Math.abs)));
    return true;
  }
});`;

// The smallest module that adds two numbers (WebAssembly core specification 2.0, binary format).
const ADD = `WebAssembly.instantiate(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 7, 1, 96, 2, 127, 127, 1, 127, 3, 2,
  1, 0, 7, 7, 1, 3, 97, 100, 100, 0, 0, 10, 9, 1, 7, 0, 32, 0, 32, 1, 106, 11]))
  .then(({ instance }) => instance.exports.add(40, 2))`;

/** Resolves with the first loudness above 0.4; if the microphone stays silent the test runs out of time. */
const LISTEN = `(async () => {
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
  });
  const context = new AudioContext();
  await context.audioWorklet.addModule("/loudest.js");
  const node = new AudioWorkletNode(context, "loudest");
  context.createMediaStreamSource(stream).connect(node).connect(context.destination);
  await context.resume();
  return new Promise((heard) => { node.port.onmessage = ({ data }) => { if (data > 0.4) heard(data); }; });
})()`;

const OPEN = `new Promise((done, failed) => {
  const request = indexedDB.open("kept", 1);
  request.onupgradeneeded = () => request.result.createObjectStore("things");
  request.onsuccess = () => done(request.result);
  request.onerror = () => failed(request.error);
})`;

const STORE = `${OPEN}.then((db) => new Promise((done) => {
  const change = db.transaction("things", "readwrite", { durability: "strict" });
  change.objectStore("things").put("kept", 1);
  change.oncomplete = () => done("stored");
}))`;

const RECALL = `${OPEN}.then((db) => new Promise((done) => {
  const asked = db.transaction("things").objectStore("things").get(1);
  asked.onsuccess = () => done(asked.result);
}))`;
