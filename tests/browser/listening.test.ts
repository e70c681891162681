import { expect, test } from "vitest";
import { spokenText } from "../../src/answer/spoken.ts";
import type { App } from "./app.ts";
import { withMicrophone } from "./microphone.ts";

const READING = "high fire CO2 nine point two, CO forty";

const foreign = (app: App) => {
  const { origin } = new URL(app.served.url);
  return app.requests.filter((url) => !url.startsWith(origin) && !url.startsWith("blob:"));
};

/** TensorFlow.js as it stands in a thread: the engine that computes there; null where it was never loaded. */
const backend = (thread: { evaluate: App["page"]["evaluate"] }) =>
  thread.evaluate(() => Reflect.get(globalThis, "_tfengine")?.backendName ?? null) as Promise<string | null>;

/** What a thread itself fetched of the recogniser, by the beginning of its name. */
const fetchedBy = (thread: { evaluate: App["page"]["evaluate"] }) =>
  thread.evaluate(() =>
    performance
      .getEntriesByType("resource")
      .map(({ name }) => /(weights|model|tfjs-backend-wasm)[^/]*$/.exec(name)?.[1])
      .filter((name, at, all) => name !== undefined && all.indexOf(name) === at)
      .sort(),
  ) as Promise<string[]>;

test("spoken readings are heard offline, stored, and answered", () =>
  withMicrophone({ phrases: [READING] }, async (app) => {
    await app.startVisit();
    await app.listen();
    await app.page.locator(".answer", { hasText: /./ }).waitFor({ timeout: 60_000 });

    const lines = await app.texts(".line strong");
    expect(lines).toContain("CO2 9.2 %, high fire");
    expect(lines).toContain("CO 40 ppm, high fire");
    const shown = spokenText(await app.text(".answer")).toLowerCase();
    expect((await app.spoken()).map((text) => text.toLowerCase())).toEqual([shown]);

    const before = await app.stored();
    expect(before.map((row) => row.entry.engine)).toEqual(before.map(() => "offline"));
    await app.load();
    expect(await app.texts(".line strong")).toEqual(lines);
    expect(await app.stored()).toEqual(before);
    await app.type("CO forty five");
    expect((await app.stored()).length).toBe(before.length + 1);

    expect(foreign(app)).toEqual([]);
    expect(app.errors).toEqual([]);
  }));

test("the recogniser is kept by the page, and computes in its own thread alone, with WebAssembly", () =>
  withMicrophone({ phrases: [], before: 5 }, async (app) => {
    await app.startVisit();
    await app.listen();
    const [worker, ...more] = app.earWorkers();
    if (!worker) throw new Error("Expected a worker for the recogniser.");
    expect(more).toEqual([]);
    expect([await backend(worker), await backend(app.page)]).toEqual(["wasm", null]);
    expect(await fetchedBy(worker)).toEqual(["model", "tfjs-backend-wasm", "weights"]);
    // The page fetches what is not kept yet, and computes nothing with it.
    expect(await fetchedBy(app.page)).toEqual(["model", "tfjs-backend-wasm", "weights"]);
    expect(app.requests.filter((url) => /sphinx|rnnoise|mdef|sendump/i.test(url))).toEqual([]);
    expect(foreign(app)).toEqual([]);
    expect(app.errors).toEqual([]);
  }));

test("where WebAssembly's engine cannot be loaded, a phrase is heard through WebGL", () =>
  withMicrophone(
    { phrases: [READING], before: 20 },
    async (app) => {
      let refused = 0;
      await app.launched.context.route(/tfjs-backend-wasm.*\.wasm/, (route) => {
        refused += 1;
        return route.abort();
      });
      await app.startVisit();
      await app.listen();
      expect(refused).toBeGreaterThan(0);
      const [worker] = app.earWorkers();
      expect(worker && (await backend(worker))).toBe("webgl");
      await app.page.locator(".answer", { hasText: /./ }).waitFor({ timeout: 60_000 });
      const lines = await app.texts(".line strong");
      expect(lines).toContain("CO2 9.2 %, high fire");
      expect(lines).toContain("CO 40 ppm, high fire");
    },
    { graphics: true },
  ));

// Said twice: a command that was not heard is said again.
test("“stop listening”, without key words, stops the ear and lets the microphone go", () =>
  withMicrophone({ phrases: ["stop listening", "stop listening"] }, async (app) => {
    await app.keepMicrophones();
    await app.startVisit();
    await app.listen();
    expect(await app.open()).toBe(1);
    await app.page.locator(".ear-off").waitFor({ timeout: 60_000 });
    expect(await app.spoken()).toEqual(["Not listening."]);
    await expect.poll(() => app.open()).toBe(0);
    await expect.poll(() => app.earWorkers()).toEqual([]);
  }));
