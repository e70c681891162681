/**
 * What a backup costs: `npm run bench:backup`. What is measured: README.md beside this file. After `--`: `--visits N`,
 * `--sounds N` (each 12 kB), `--slower N` (times that the processor is slowed down).
 */
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { ITERATIONS } from "../../src/record/backup/locked.ts";
import { App, type OpenOptions } from "../browser/app.ts";
import { serveApp } from "../support/browser/serve.ts";
import { longVisit } from "../support/long-visit.ts";
import { reviewVisit } from "../support/review-visit.ts";

const { values: args } = parseArgs({
  options: {
    visits: { type: "string", default: "300" },
    sounds: { type: "string", default: "1000" },
    slower: { type: "string", default: "4" },
  },
});
const [VISITS, SOUNDS, SLOWER] = [Number(args.visits), Number(args.sounds), Number(args.slower)];
const LONG = 2000;
const SOUND_BYTES = 12_000;
const PASSPHRASE = "four words of mine";
const print = (line: string) => process.stdout.write(`${line}\n`);
const seconds = (ms: number) => `${(ms / 1000).toFixed(2)} s`;

/** Puts visits and sound into the notebook, past the app: as it would have stored them. */
function fill(app: App, visits: readonly object[]): Promise<void> {
  return app.page.evaluate(
    ([all, sounds, bytes]) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open("burnerside");
        opening.onsuccess = () => {
          const writing = opening.result.transaction(["visits", "entries", "clips"], "readwrite");
          type Stored = { head: { id: string }; entries: { seq: number; at: string }[] };
          for (const { head, entries } of all as unknown as Stored[]) {
            writing.objectStore("visits").put(head);
            for (const entry of entries)
              writing.objectStore("entries").put({ visitId: head.id, seq: entry.seq, entry });
          }
          const [{ head, entries } = { head: { id: "" }, entries: [] }] = all as unknown as Stored[];
          for (const { seq } of entries.slice(0, sounds))
            writing.objectStore("clips").put({
              visitId: head.id,
              seq,
              at: new Date().toISOString(),
              type: "audio/ogg; codecs=opus",
              data: crypto.getRandomValues(new Uint8Array(bytes)).buffer,
            });
          writing.onabort = () => reject(writing.error);
          writing.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    [visits, SOUNDS, SOUND_BYTES] as const,
  );
}

/** How long a work of the page took, and its longest task in it, ms. */
async function timed(app: App, work: () => Promise<unknown>): Promise<string> {
  await app.page.evaluate(() => {
    const longest = { ms: 0 };
    Object.assign(globalThis, { longest });
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) longest.ms = Math.max(longest.ms, duration);
    }).observe({ type: "longtask" });
  });
  const before = performance.now();
  await work();
  const took = performance.now() - before;
  const longest = await app.page.evaluate(
    () => (globalThis as unknown as { longest: { ms: number } }).longest.ms,
  );
  return `${seconds(took)}, longest task ${Math.round(longest)} ms`;
}

const button = (app: App, name: string) => app.page.getByRole("button", { name, exact: true });

async function slowedDown(app: App): Promise<App> {
  const cdp = await app.page.context().newCDPSession(app.page);
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  app.page.setDefaultTimeout(300_000);
  return app;
}

async function derivation(app: App): Promise<number[]> {
  return app.page.evaluate(async (iterations) => {
    const runs: number[] = [];
    for (let run = 0; run < 5; run += 1) {
      const key = await crypto.subtle.importKey("raw", new Uint8Array(20), "PBKDF2", false, ["deriveKey"]);
      const before = performance.now();
      const params = { name: "PBKDF2", hash: "SHA-256", iterations, salt: new Uint8Array(16) };
      await crypto.subtle.deriveKey(params, key, { name: "AES-GCM", length: 256 }, false, ["encrypt"]);
      runs.push(performance.now() - before);
    }
    return runs;
  }, ITERATIONS);
}

async function made(app: App, what: string, passphrase: string): Promise<Buffer> {
  await button(app, "Back up everything").click();
  await app.page.getByLabel("Passphrase", { exact: true }).fill(passphrase);
  await app.page.getByLabel("The same once more").fill(passphrase);
  let file = Buffer.alloc(0);
  const told = await timed(app, async () => {
    const [download] = await Promise.all([
      app.page.waitForEvent("download"),
      button(app, "Make the backup").click(),
    ]);
    file = await readFile(await download.path());
  });
  print(`${what}: ${told}, ${(file.length / 1e6).toFixed(1)} MB`);
  await button(app, "Close").click();
  return file;
}

async function restored(app: App, file: Buffer): Promise<void> {
  await app.page
    .locator("section[aria-label=Files] input[type=file]")
    .setInputFiles({ name: "a.locked", mimeType: "application/octet-stream", buffer: file });
  await app.page.getByLabel("Passphrase of the backup").fill(PASSPHRASE);
  const looked = await timed(app, async () => {
    await button(app, "Unlock").click();
    await button(app, "Restore").waitFor();
  });
  print(`unlocked and looked through: ${looked}`);
  const back = await timed(app, async () => {
    await button(app, "Restore").click();
    await app.page.getByText("visits restored.").waitFor();
  });
  print(`restored: ${back}`);
}

const served = await serveApp();
const folders: string[] = [];
async function fresh(): Promise<OpenOptions> {
  const profile = await mkdtemp(join(tmpdir(), "burnerside-bench-"));
  folders.push(profile);
  return { served, profile };
}
try {
  const one = await slowedDown(await App.open(await fresh()));
  print(`${VISITS} visits and one of ${LONG} entries, ${SOUNDS} sounds, processor ${SLOWER} times as slow`);
  const runs = await derivation(one);
  print(`${ITERATIONS} rounds of PBKDF2: ${runs.map((ms) => `${Math.round(ms)} ms`).join(", ")}`);
  const long = longVisit(LONG);
  const short = reviewVisit();
  const shorts = Array.from({ length: VISITS }, (_, number) => ({
    ...short,
    head: { ...short.head, id: `bench-${number}`, title: `Boiler room ${number}` },
  }));
  await fill(one, [long, ...shorts]);
  await one.load();
  await made(one, "made the first time, when logs from before they were linked are linked", "");
  await made(one, "made again", "");
  const file = await made(one, "made again, locked", PASSPHRASE);
  await one.launched.close();
  const other = await slowedDown(await App.open(await fresh()));
  await restored(other, file);
  await other.launched.close();
} finally {
  await served.close();
  for (const folder of folders) await rm(folder, { recursive: true, force: true, maxRetries: 5 });
}
