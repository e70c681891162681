import { describe, expect, test } from "vitest";
import { keepForGood, storageKept, storageUse } from "../../src/device/storage.ts";

// The shape of what browsers tell: WHATWG Storage, `estimate()`; `usageDetails` is Chromium's own.

const telling = (estimate: object) => ({ estimate: async () => estimate });

describe("how much is stored", () => {
  test.each([
    [
      { usage: 5, quota: 10 },
      { used: 5, quota: 10, notebook: null },
    ],
    [
      { usage: 5, quota: 10, usageDetails: { indexedDB: 3 } },
      { used: 5, quota: 10, notebook: 3 },
    ],
    [
      { usage: 5, quota: 10, usageDetails: { caches: 3 } },
      { used: 5, quota: 10, notebook: null },
    ],
    [
      { usage: 0, quota: 0, usageDetails: null },
      { used: 0, quota: 0, notebook: null },
    ],
    [{ quota: 10 }, null],
    [{}, null],
  ])("%j", async (told, expected) => {
    expect(await storageUse(telling(told))).toEqual(expected);
  });
  test("a browser that tells nothing, or fails at it", async () => {
    const failing = { estimate: () => Promise.reject(new TypeError()) };
    expect([await storageUse(null), await storageUse(failing)]).toEqual([null, null]);
  });
});

describe("whether it stays", () => {
  const browser = (persisted: boolean, grants: boolean) => {
    const asked: string[] = [];
    const persist = async () => {
      asked.push("persist");
      return grants;
    };
    return { asked, persisted: async () => persisted, persist };
  };
  test.each([
    [true, false, true, 0],
    [false, true, true, 1],
    [false, false, false, 1],
  ])("promised %s, would promise %s: %s, asked %d times", async (persisted, grants, kept, times) => {
    const storage = browser(persisted, grants);
    expect(await keepForGood(storage)).toBe(kept);
    expect(storage.asked).toHaveLength(times);
    expect(await storageKept(storage)).toBe(persisted);
  });
  test("a browser without a store", async () => {
    expect([await keepForGood(null), await storageKept(null)]).toEqual([false, null]);
  });
});
