import { expect, test } from "vitest";
import { createWakeLock, type Wakeful } from "../../src/device/wake-lock.ts";

// The behaviour of the W3C's Screen Wake Lock API (section "Handling document loss of visibility"): a hidden page loses its lock.

/** A browser's page that can be hidden, and the locks that it gave. */
function device({ refuses = false } = {}) {
  const locks: { held: boolean; drop: () => void }[] = [];
  const page = { visibilityState: "visible" as DocumentVisibilityState, seen: () => undefined as unknown };
  const world: Wakeful = {
    document: {
      get visibilityState() {
        return page.visibilityState;
      },
      addEventListener: (_: string, listener: unknown) => {
        if (typeof listener === "function") page.seen = () => listener();
      },
    },
    wakeLock: {
      request: async () => {
        if (refuses) throw new DOMException("battery", "NotAllowedError");
        let told = (): void => undefined;
        const lock = { held: true, drop: () => drop() };
        const drop = () => {
          lock.held = false;
          told();
        };
        locks.push(lock);
        const sentinel = {
          addEventListener: (_: string, listener: () => void) => {
            told = listener;
          },
          release: async () => drop(),
        };
        return sentinel as unknown as WakeLockSentinel;
      },
    },
  };
  const settle = () => new Promise((done) => setTimeout(done, 0));
  return {
    lock: createWakeLock(world),
    settle,
    held: () => locks.filter(({ held }) => held).length,
    asked: () => locks.length,
    async show(state: DocumentVisibilityState) {
      page.visibilityState = state;
      if (state === "hidden") for (const lock of locks) if (lock.held) lock.drop();
      page.seen();
      await settle();
    },
  };
}

test("held until released, and only one at a time", async () => {
  const { lock, settle, held, asked } = device();
  expect([lock.supported, held()]).toEqual([true, 0]);
  lock.hold();
  lock.hold();
  await settle();
  expect([held(), asked()]).toEqual([1, 1]);
  lock.release();
  await settle();
  expect(held()).toBe(0);
});

test("taken again when the page is seen again, but not once it was released", async () => {
  const { lock, settle, held, show } = device();
  lock.hold();
  await settle();
  await show("hidden");
  expect(held()).toBe(0);
  await show("visible");
  expect(held()).toBe(1);
  lock.release();
  await settle();
  await show("hidden");
  await show("visible");
  expect(held()).toBe(0);
});

test("released while it is still being asked for, it is not kept", async () => {
  const { lock, settle, held } = device();
  lock.hold();
  lock.release();
  await settle();
  expect(held()).toBe(0);
});

test("a refusal is taken silently, and asked again when the page is seen again", async () => {
  const { lock, settle, held, show } = device({ refuses: true });
  lock.hold();
  await settle();
  await show("visible");
  expect(held()).toBe(0);
});

test("a browser without wake locks says so, and nothing breaks", () => {
  const document = { visibilityState: "visible", addEventListener: () => undefined } as const;
  const lock = createWakeLock({ document, wakeLock: undefined });
  lock.hold();
  lock.release();
  expect(lock.supported).toBe(false);
});
