/** How much of the device the app takes, as far as the browser tells, in bytes. */
export interface StorageUse {
  readonly used: number;
  /** The most it would give. */
  readonly quota: number;
  /** The notebook's part of it; null where the browser does not tell. */
  readonly notebook: number | null;
}

/** Null where the browser tells nothing. */
export async function storageUse(
  storage: Pick<StorageManager, "estimate"> | null = navigator.storage ?? null,
): Promise<StorageUse | null> {
  const told = await storage?.estimate?.().catch(() => null);
  if (told?.usage === undefined || told.quota === undefined) return null;
  return { used: told.usage, quota: told.quota, notebook: databaseOf(told) };
}

/** `usageDetails` is in no standard; some browsers give it. */
function databaseOf(told: StorageEstimate): number | null {
  const details: unknown = "usageDetails" in told ? told.usageDetails : null;
  if (typeof details !== "object" || details === null || !("indexedDB" in details)) return null;
  return typeof details.indexedDB === "number" ? details.indexedDB : null;
}

/** Whether the browser has promised to keep what is stored; null where it does not tell. */
export async function storageKept(
  storage: Pick<StorageManager, "persisted"> | null = navigator.storage ?? null,
): Promise<boolean | null> {
  return (await storage?.persisted?.().catch(() => null)) ?? null;
}

/** Asks the browser to keep what is stored when space runs short; whether it will. */
export async function keepForGood(
  storage: Pick<StorageManager, "persisted" | "persist"> | null = navigator.storage ?? null,
): Promise<boolean> {
  if (!storage?.persist) return false;
  return (await storage.persisted()) || (await storage.persist());
}
