/**
 * Why a database that a newer program has laid out is left alone: one sentence; null where this program knows it. `native` is
 * the browser's number, Dexie's ten for each version; undefined where there is no database yet.
 */
export function newerProblem(what: string, native: number | undefined, known: number): string | null {
  const found = Math.floor((native ?? 0) / 10);
  if (found <= known) return null;
  return `The ${what} on this device was laid out by a newer Burnerside (${found}; this one knows ${known}). Nothing in it was touched: load the page anew to get the newer one`;
}

/** The browser's number of a database, without opening it; undefined where there is none, or the browser does not tell. */
export async function nativeVersion(name: string): Promise<number | undefined> {
  const here = await indexedDB.databases?.();
  return here?.find((each) => each.name === name)?.version;
}
