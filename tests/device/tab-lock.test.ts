import { expect, test } from "vitest";
import { createTabLock } from "../../src/device/tab-lock.ts";

/** As much of the W3C's Web Locks as is used, for one name: shared locks, and an exclusive one if it is free at once. */
function locks(): LockManager {
  const held = new Set<"shared" | "exclusive">();
  let shared = 0;
  const request = async (
    name: string,
    options: LockOptions,
    work: (lock: Lock | null) => Promise<unknown>,
  ) => {
    const mode = options.mode ?? "exclusive";
    if (mode === "exclusive" && (shared > 0 || held.has("exclusive"))) return work(null);
    if (mode === "shared") shared += 1;
    else held.add(mode);
    try {
      return await work({ name, mode });
    } finally {
      if (mode === "shared") shared -= 1;
      else held.delete(mode);
    }
  };
  return { request, query: async () => ({}) } as LockManager;
}

const settle = () => new Promise((done) => setTimeout(done, 0));

test("nothing is done alone while any window takes part", async () => {
  const browser = locks();
  const [one, other] = [createTabLock("visit", browser), createTabLock("visit", browser)];
  let done = 0;
  const work = async () => {
    done += 1;
  };
  const leaves = [one.join(), other.join()];
  expect([await one.alone(work), done]).toEqual([false, 0]);
  leaves[0]?.();
  await settle();
  expect([await one.alone(work), done]).toEqual([false, 0]);
  leaves[1]?.();
  await settle();
  expect([await one.alone(work), done]).toEqual([true, 1]);
});

test("where the browser has no locks the work is done", async () => {
  const lock = createTabLock("visit", null);
  let done = 0;
  lock.join();
  const work = async () => {
    done += 1;
  };
  expect(await lock.alone(work)).toBe(true);
  expect(done).toBe(1);
});
