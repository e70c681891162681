import { expect, vi } from "vitest";
import { reasonOf } from "../../src/device/notebook/trouble.ts";
import { FAULTS, type Fault, withFault } from "./faulty-database.ts";

/** One operation of a store, and what it starts from. */
export interface Operation<Store> {
  readonly prepare?: (store: Store) => Promise<unknown>;
  readonly run: (store: Store) => Promise<unknown>;
  /** Tables that may have been written before it failed: what they hold is worked out again from the others, and comes out the same. */
  readonly between?: readonly string[];
}

let databases = 0;

/**
 * Runs an operation again and again, another of its steps in the database failing each time, in every way there is. All of it
 * is stored or nothing; it says why in one clear piece of a sentence; and the next try does what it should.
 */
export async function underEveryFault<Store>(
  openStore: (name: string) => Promise<Store>,
  { prepare = async () => {}, run, between = [] }: Operation<Store>,
): Promise<number> {
  // Dexie warns when it opens a database again that was closed.
  const warning = vi.spyOn(globalThis.console, "warn").mockImplementation(() => {});
  const begin = async () => {
    databases += 1;
    const name = `faulty-${databases}`;
    const store = await openStore(name);
    await prepare(store);
    return { name, store };
  };
  const whole = await begin();
  const before = await contents(whole.name);
  const { steps, result } = await withFault(null, () => run(whole.store));
  const after = await contents(whole.name);
  expect(result.status).toBe("fulfilled");
  expect(steps.length).toBeGreaterThan(0);
  const wanted = result.status === "fulfilled" ? result.value : undefined;

  let failed = 0;
  for (const [at, step] of steps.entries()) {
    let { name, store } = await begin();
    for (const fault of FAULTS[step]) {
      const { result: tried } = await withFault({ at, fault }, () => run(store));
      const where = `${fault} at step ${at} of ${steps.length}`;
      if (tried.status === "rejected") {
        failed += 1;
        clearReason(tried.reason, fault, where);
        expect(without(await contents(name), between), where).toEqual(without(before, between));
      } else {
        // It was opened again behind the scenes.
        expect(tried.value, where).toEqual(wanted);
        expect(await contents(name), where).toEqual(after);
        await forget(name);
        ({ name, store } = await begin());
      }
    }
    const { result: again } = await withFault(null, () => run(store));
    expect(again, `after failures at step ${at}`).toEqual({ status: "fulfilled", value: wanted });
    expect(await contents(name), `after failures at step ${at}`).toEqual(after);
    await forget(name);
  }
  warning.mockRestore();
  return failed;
}

/** "Not saved: …" and the like: short, of one line, no class names and no full stop. */
function clearReason(error: unknown, fault: Fault, where: string): void {
  const reason = reasonOf(error);
  expect(reason, where).toMatch(/^[^\n]{10,160}[^.\n]$/);
  expect(reason, where).toMatch(/^(?:the |this |it )/i);
  expect(reason, where).not.toMatch(/[A-Z][a-z]+Error|undefined|\[object|IDB|Dexie/);
  if (fault === "QuotaExceededError" && !/closed|opened/.test(reason))
    expect(reason, where).toMatch(/out of space/);
}

type Contents = Readonly<Record<string, readonly unknown[]>>;

function without(all: Contents, names: readonly string[]): Contents {
  return Object.fromEntries(Object.entries(all).filter(([name]) => !names.includes(name)));
}

/** Every row of every table, past the store. */
async function contents(name: string): Promise<Contents> {
  const database = await answer(indexedDB.open(name));
  const names = [...database.objectStoreNames];
  const transaction = database.transaction(names);
  const rows = await Promise.all(names.map((table) => answer(transaction.objectStore(table).getAll())));
  database.close();
  return Object.fromEntries(names.map((table, place) => [table, rows[place] ?? []]));
}

/** Its store lets go of it, too: each that is open hears of every change. */
async function forget(name: string): Promise<void> {
  await answer(indexedDB.deleteDatabase(name));
}

function answer<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
