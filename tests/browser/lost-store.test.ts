import { readFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import { importVisit } from "../../src/record/bundle.ts";
import { type App, withApp } from "./app.ts";

// The store fails or vanishes while a visit runs: what is in memory is told to be only there, and can be kept.

const FIRST = "high fire CO2 nine point two";
const NEXT = "CO forty";

/** A page of the same origin that is not the app. */
async function besides(app: App) {
  const page = await app.launched.context.newPage();
  const address = new URL("/besides", app.served.url).href;
  await page.route(address, (route) => route.fulfill({ contentType: "text/html", body: "" }));
  await page.goto(address);
  return page;
}

const clearings: [name: string, clear: (app: App) => Promise<void>][] = [
  [
    "the browser's own “clear site data”",
    async (app) => {
      const session = await app.launched.context.newCDPSession(app.page);
      const origin = new URL(app.served.url).origin;
      await session.send("Storage.clearDataForOrigin", { origin, storageTypes: "all" });
    },
  ],
  [
    "the database deleted by another page",
    async (app) => {
      const page = await besides(app);
      await page.evaluate(
        () =>
          new Promise<void>((resolve, reject) => {
            const deleting = indexedDB.deleteDatabase("burnerside");
            deleting.onsuccess = () => resolve();
            deleting.onerror = () => reject(deleting.error);
          }),
      );
      await page.close();
    },
  ],
];

describe.each(clearings)("cleared in the middle of a visit: %s", (_, clear) => {
  test("the next phrase is held with the true reason; the log can be saved as a file, and stored anew", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type(FIRST);
      const before = await app.stored();
      await clear(app);

      await app.type(NEXT);
      expect(await app.text(".held")).toMatch(/This visit is not in the notebook any more/);
      expect(await app.text(".held")).toMatch(
        /What was logged before \(one entry\) is still in this window, and nowhere else/,
      );
      expect(await app.text(".held li")).toContain(NEXT);
      // The box is the only word of it: it stays until the visit is stored anew.
      expect(await app.page.getByRole("button", { name: /^Leave/ }).count()).toBe(0);
      expect((await app.spoken()).at(-1)).toBe("Not saved. Look at the screen.");

      // What is nowhere else is not left for another screen.
      await app.page.getByRole("button", { name: "To the start" }).click();
      await app.page.getByText("Something of this visit is not saved").waitFor();
      expect(await app.text(".held li")).toContain(NEXT);

      // Without the network: what was cleared is not there to load from either.
      await app.launched.context.setOffline(true);
      const [download] = await Promise.all([
        app.page.waitForEvent("download"),
        app.page.getByRole("button", { name: "Save the log as a file" }).click(),
      ]);
      const saved = importVisit(await readFile(await download.path(), "utf8"));
      if (!saved.ok) throw new Error(JSON.stringify(saved.problems));
      expect(saved.visit.entries).toEqual(before.map(({ entry }) => entry));
      await app.launched.context.setOffline(false);

      await app.page.getByRole("button", { name: "Store the visit anew" }).click();
      await app.page.locator(".held").waitFor({ state: "detached" });
      await app.page.locator(`main[aria-busy="false"]`).waitFor();
      expect((await app.stored()).map(({ entry }) => entry.phrase)).toEqual([FIRST, NEXT]);
      expect(await app.text(".large")).toBe("40 ppm");
      expect(await app.table("visits")).toHaveLength(1);
    }));
});

test("the database closes itself: the next phrase opens it again, and is stored", () =>
  withApp({ prepare: keepDatabases }, async (app) => {
    await app.startVisit();
    await app.type(FIRST);
    await app.page.evaluate(() => {
      for (const database of (globalThis as unknown as { databases: IDBDatabase[] }).databases) {
        database.close();
        database.dispatchEvent(new Event("close"));
      }
    });
    await app.type(NEXT);
    expect((await app.stored()).map(({ entry }) => entry.phrase)).toEqual([FIRST, NEXT]);
    expect(await app.page.locator(".held").count()).toBe(0);
  }));

test("it does not open again: that is said, and once it does the held phrases are stored in order", () =>
  withApp({ prepare: keepDatabases }, async (app) => {
    await app.startVisit();
    await app.type(FIRST);
    await app.page.evaluate(() => {
      const { open } = IDBFactory.prototype;
      IDBFactory.prototype.open = () => {
        throw new DOMException("The disk is gone.", "UnknownError");
      };
      Object.assign(globalThis, { mend: () => Object.assign(IDBFactory.prototype, { open }) });
      for (const database of (globalThis as unknown as { databases: IDBDatabase[] }).databases) {
        database.close();
        database.dispatchEvent(new Event("close"));
      }
    });
    await app.type(NEXT);
    await app.type("CO forty five");
    expect(await app.text(".held")).toMatch(/Not saved/);
    expect(await app.texts(".held li")).toHaveLength(2);
    await app.page.evaluate(() => (globalThis as unknown as { mend: () => void }).mend());
    await app.page.getByRole("button", { name: "Try again" }).click();
    await app.page.locator(".held").waitFor({ state: "detached" });
    await app.page.locator(`main[aria-busy="false"]`).waitFor();
    expect((await app.stored()).map(({ entry }) => entry.phrase)).toEqual([FIRST, NEXT, "CO forty five"]);
  }));

describe("another version of the app", () => {
  const open = (app: App, version: number) =>
    app.page.evaluate(
      (native) =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open("burnerside", native);
          opening.onblocked = () => reject(new Error("blocked"));
          opening.onerror = () => reject(opening.error);
          opening.onsuccess = () => {
            opening.result.close();
            resolve();
          };
        }),
      version,
    );

  test("takes over the notebook while a visit runs: it is let, and this window says so and touches nothing", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type(FIRST);
      const page = await besides(app);
      await page.evaluate(
        () =>
          new Promise<void>((resolve, reject) => {
            const opening = indexedDB.open("burnerside", 9990);
            opening.onblocked = () => reject(new Error("blocked"));
            opening.onsuccess = () => {
              opening.result.close();
              resolve();
            };
          }),
      );
      await app.type(NEXT);
      expect(await app.text(".held")).toMatch(/laid out by a newer Burnerside/);
      expect((await app.stored()).map(({ entry }) => entry.phrase)).toEqual([FIRST]);
      await app.page.getByRole("button", { name: "Save the log as a file" }).waitFor();
    }));

  test("was here: a notebook of a newer version is said to be one, and nothing in it is touched", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type(FIRST);
      const before = await app.stored();
      await open(app, 9990);
      await app.page.goto("about:blank");
      await app.page.goto(app.served.url);
      expect(await app.text(".alert")).toMatch(/^Burnerside cannot start\. The notebook .* newer Burnerside/);
      expect(await app.stored()).toEqual(before);
      expect(
        await app.page.evaluate(async () => (await indexedDB.databases()).map(({ version }) => version)),
      ).toContain(9990);
    }));

  test("holds the notebook in its older form: the app says which window to close, and comes up once it is closed", () =>
    withApp({}, async (app) => {
      const page = await besides(app);
      await app.page.goto("about:blank");
      await page.evaluate(
        () =>
          new Promise<void>((resolve, reject) => {
            const deleting = indexedDB.deleteDatabase("burnerside");
            deleting.onerror = () => reject(deleting.error);
            deleting.onsuccess = () => {
              // A window that is frozen does not let go of it.
              const opening = indexedDB.open("burnerside", 10);
              opening.onupgradeneeded = () => {
                const { result } = opening;
                result.createObjectStore("visits", { keyPath: "id" });
                result.createObjectStore("entries", { keyPath: ["visitId", "seq"] });
                result.createObjectStore("sheets", { keyPath: "id" });
                result.createObjectStore("settings", { keyPath: "key" });
              };
              opening.onsuccess = () => resolve();
            };
          }),
      );
      await app.page.goto(app.served.url);
      expect(await app.text(".alert")).toMatch(/Another window .* older version/);
      await page.close();
      await app.page.locator("h1").waitFor();
      await app.passWelcome();
      await app.startVisit();
      await app.type(FIRST);
      expect(await app.stored()).toHaveLength(1);
    }));
});

/** Keeps what the page opens, so that a test can close it as the browser does when it must. */
async function keepDatabases(context: {
  addInitScript(script: () => void): Promise<unknown>;
}): Promise<void> {
  await context.addInitScript(() => {
    const databases: IDBDatabase[] = [];
    Object.assign(globalThis, { databases });
    const { open } = IDBFactory.prototype;
    IDBFactory.prototype.open = function (...args) {
      const opening = open.apply(this, args);
      opening.addEventListener("success", () => databases.push(opening.result));
      return opening;
    };
  });
}
