import { signal } from "@preact/signals";
import { expect, test } from "vitest";
import { Installed } from "../../../src/app/installed/installed.ts";

/** An installed app with everything that it asks of the browser written down. */
function app({ alone = true, fails = "" } = {}) {
  const done: string[] = [];
  let on = { newer: (): void => undefined, swapped: (): void => undefined };
  const failing = (what: string) => {
    done.push(what);
    if (fails === what) throw new Error("no network");
  };
  const installed = new Installed({
    cache: { kept: async () => [], fetch: async () => [], sweep: async () => undefined },
    list: async (which) => {
      failing(`list ${which}`);
      return { ear: [], voice: [], pdf: [] };
    },
    isUsed: () => true,
    reason: (error) => (error instanceof Error ? error.message : ""),
    installation: {
      start: async (told) => {
        on = told;
        failing("start");
      },
      look: async () => failing("look"),
      swap: async () => failing("swap"),
      reload: () => failing("reload"),
    },
    wakeLock: { supported: true, hold: () => failing("hold"), release: () => failing("release") },
    visitLock: {
      join: () => {
        done.push("join");
        return () => done.push("leave");
      },
      alone: async (work) => {
        if (alone) await work();
        return alone;
      },
    },
    storageUse: async () => ({ used: 5, quota: 10, notebook: null }),
    storageKept: async () => false,
    keepForGood: async () => {
      done.push("keep");
      return true;
    },
    nowAndThen: () => undefined,
  });
  const visitRuns = signal(false);
  const isWatched = signal(false);
  return {
    installed,
    visitRuns,
    isWatched,
    done,
    start: () => {
      installed.watch(visitRuns, isWatched);
      return installed.start();
    },
    newer: () => on.newer(),
    swapped: () => on.swapped(),
  };
}

test("the screen is kept on, and other windows are kept from updating, as long as a visit runs", async () => {
  const { start, visitRuns, isWatched, done } = app();
  await start();
  done.length = 0;
  visitRuns.value = true;
  isWatched.value = true;
  expect(done).toEqual(["join", "hold"]);
  isWatched.value = false;
  visitRuns.value = false;
  expect(done).toEqual(["join", "hold", "release", "leave"]);
});

test("a newer version is offered, and never while a visit runs", async () => {
  const { installed, start, newer, visitRuns, done } = app();
  await start();
  visitRuns.value = true;
  newer();
  expect(installed.update.value).toEqual({ kind: "none" });
  visitRuns.value = false;
  expect(installed.update.value).toEqual({ kind: "offered" });
  expect(done).not.toContain("swap");
  expect(done).not.toContain("reload");
});

test("accepted: its files are fetched, then it is put in place, then loaded", async () => {
  const { installed, start, newer, done } = app();
  await start();
  newer();
  done.length = 0;
  await installed.accept();
  expect(done).toEqual(["list newest", "swap", "reload"]);
  expect(installed.update.value).toEqual({ kind: "under-way" });
});

test("not accepted while a visit runs in any window", async () => {
  const { installed, start, newer, done } = app({ alone: false });
  await start();
  newer();
  await installed.accept();
  expect(installed.update.value).toEqual({
    kind: "put-off",
    why: "A visit runs in another window: finish or leave it first.",
  });
  expect(done).not.toContain("swap");
});

test.each(["list newest", "swap"])("where %s fails this version goes on, and says so", async (fails) => {
  const { installed, start, newer, done } = app({ fails });
  await start();
  newer();
  await installed.accept();
  expect(installed.update.value).toEqual({
    kind: "put-off",
    why: "The newer version could not be fetched (no network): this one goes on.",
  });
  expect(done).not.toContain("reload");
  // It can be tried again.
  newer();
  expect(installed.update.value).toEqual({ kind: "offered" });
});

test("put in place by another window: loaded at the start, only offered during a visit", async () => {
  const { installed, start, swapped, visitRuns, done } = app();
  await start();
  visitRuns.value = true;
  swapped();
  expect(done).not.toContain("reload");
  visitRuns.value = false;
  expect(installed.update.value).toEqual({ kind: "offered" });
  swapped();
  expect(done).toContain("reload");
});

test("a browser that cannot install it is no trouble", async () => {
  const { installed, start } = app({ fails: "start" });
  await start();
  expect(installed.update.value).toEqual({ kind: "none" });
});

test("the promise to keep the notebook is asked for once", async () => {
  const { installed, done } = app();
  await installed.weigh();
  expect([installed.kept.value, installed.storage.value?.used]).toEqual([false, 5]);
  await installed.keepForGood();
  await installed.keepForGood();
  expect(installed.kept.value).toBe(true);
  expect(done).toEqual(["keep"]);
});
