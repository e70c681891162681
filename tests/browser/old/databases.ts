/** A database of IndexedDB as plain JSON: how its tables are laid out, and all their rows. */
export interface StoredDatabase {
  readonly name: string;
  /** The browser's number: Dexie's ten for each version. */
  readonly native: number;
  readonly tables: readonly StoredTable[];
}

export interface StoredTable {
  readonly name: string;
  readonly keyPath: string | readonly string[];
  readonly indexes: readonly {
    readonly name: string;
    readonly keyPath: string | readonly string[];
    readonly unique: boolean;
  }[];
  /** Bytes are `{ "$bytes": base64 }`; 32-bit floats `{ "$floats": [value, how often, value, …] }`; a key that the browser gives to nobody is `{ "$key": "P-256" }`, made anew when written. */
  readonly rows: readonly unknown[];
}

/** Runs in the page: all databases of its origin. */
export async function readDatabases(): Promise<StoredDatabase[]> {
  const runsOf = (floats: Float32Array): number[] => {
    const runs: number[] = [];
    for (const value of floats) {
      if (runs.at(-2) === value) runs.push((runs.pop() ?? 0) + 1);
      else runs.push(value, 1);
    }
    return runs;
  };
  const plain = (value: unknown): unknown => {
    if (value instanceof ArrayBuffer) return { $bytes: btoa(String.fromCharCode(...new Uint8Array(value))) };
    if (value instanceof Float32Array) return { $floats: runsOf(value) };
    if (globalThis.CryptoKey && value instanceof CryptoKey) return { $key: "P-256" };
    if (Array.isArray(value)) return value.map(plain);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, plain(each)]));
  };
  const done = <T>(request: IDBRequest<T>) =>
    new Promise<T>((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  const found: StoredDatabase[] = [];
  for (const { name = "" } of await indexedDB.databases()) {
    const database = await done(indexedDB.open(name));
    const tables: StoredTable[] = [];
    for (const table of database.objectStoreNames) {
      const store = database.transaction(table).objectStore(table);
      tables.push({
        name: table,
        keyPath: store.keyPath ?? "",
        indexes: [...store.indexNames].map((index) => {
          const { keyPath, unique } = store.index(index);
          return { name: index, keyPath, unique };
        }),
        rows: (await done(store.getAll())).map(plain),
      });
    }
    found.push({ name, native: database.version, tables });
    database.close();
  }
  return found;
}

/** Runs in the page, where the app is not open: puts a database in place of the one of its name. */
export async function writeDatabase({ name, native, tables }: StoredDatabase): Promise<void> {
  const { privateKey } = await crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, false, [
    "sign",
    "verify",
  ]);
  const floatsOf = (runs: number[]) =>
    Float32Array.from(
      runs.flatMap((value, at) => (at % 2 === 0 ? Array<number>(runs[at + 1] ?? 0).fill(value) : [])),
    );
  const rich = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(rich);
    if (typeof value !== "object" || value === null) return value;
    if ("$bytes" in value) return Uint8Array.from(atob(String(value.$bytes)), (c) => c.charCodeAt(0)).buffer;
    if ("$floats" in value) return floatsOf(value.$floats as number[]);
    if ("$key" in value) return privateKey;
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, rich(each)]));
  };
  await new Promise<void>((resolve, reject) => {
    const deleting = indexedDB.deleteDatabase(name);
    deleting.onblocked = () => reject(new Error("Another page holds the database."));
    deleting.onsuccess = () => resolve();
  });
  await new Promise<void>((resolve, reject) => {
    const opening = indexedDB.open(name, native);
    opening.onupgradeneeded = () => {
      const path = (keyPath: string | readonly string[]) =>
        typeof keyPath === "string" ? keyPath : [...keyPath];
      for (const table of tables) {
        const store = opening.result.createObjectStore(table.name, { keyPath: path(table.keyPath) });
        for (const index of table.indexes)
          store.createIndex(index.name, path(index.keyPath), { unique: index.unique });
        for (const row of table.rows) store.put(rich(row));
      }
    };
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      opening.result.close();
      resolve();
    };
  });
}
