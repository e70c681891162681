import { forceCloseDatabase, IDBDatabase, IDBTransaction } from "fake-indexeddb";

/** What is done in a database: a transaction is begun, something is asked of it, it is committed. */
export type Step = "begin" | "ask" | "commit";

/**
 * How a step can fail: the disk is full; the browser cannot read or write it; the transaction is broken off; it cannot be
 * begun; or the browser closes the whole database.
 */
export type Fault = "QuotaExceededError" | "UnknownError" | "broken off" | "not begun" | "closed";

export const FAULTS: Readonly<Record<Step, readonly Fault[]>> = {
  begin: ["not begun", "closed"],
  ask: ["QuotaExceededError", "UnknownError", "broken off", "closed"],
  commit: ["QuotaExceededError", "UnknownError", "closed"],
};

/** What `fake-indexeddb` does at each step of a transaction, which its types leave out. */
interface Transaction extends globalThis.IDBTransaction {
  readonly _requests: readonly unknown[];
  readonly _state: string;
  _abort(name: string | null): void;
  _execRequestAsync(request: { operation: () => unknown }): IDBRequest;
  _start(): void;
}

let planned: { at: number; fault: Fault } | null = null;
let steps: Step[] = [];

/** How this step fails; null where it does not. */
function due(step: Step): Fault | null {
  steps.push(step);
  return planned?.at === steps.length - 1 ? planned.fault : null;
}

const transactions = IDBTransaction.prototype as Transaction;
const databases = IDBDatabase.prototype;
const { _execRequestAsync: request, _start: goOn } = transactions;
const { transaction: open } = databases;

databases.transaction = function begun(this: globalThis.IDBDatabase, ...args: Parameters<typeof open>) {
  const fault = due("begin");
  if (fault === "closed") closed(this);
  else if (fault) throw new DOMException("The connection is closing.", "InvalidStateError");
  return open.apply(this, args);
};

transactions._execRequestAsync = function added(this: Transaction, asked) {
  switch (due("ask")) {
    case null:
    case "not begun":
      break;
    case "QuotaExceededError":
      return request.call(this, failing(asked, "QuotaExceededError"));
    case "UnknownError":
      return request.call(this, failing(asked, "UnknownError"));
    case "broken off": {
      const made = request.call(this, asked);
      this._abort(null);
      return made;
    }
    case "closed": {
      const made = request.call(this, asked);
      closed(this.db);
      return made;
    }
  }
  return request.call(this, asked);
};

transactions._start = function ended(this: Transaction) {
  // Nothing is left to do: what follows is the commit.
  if (this._requests.length === 0 && this._state !== "finished") {
    switch (due("commit")) {
      case null:
      case "not begun":
      case "broken off":
        break;
      case "QuotaExceededError":
        return this._abort("QuotaExceededError");
      case "UnknownError":
        return this._abort("UnknownError");
      case "closed":
        closed(this.db);
        break;
    }
  }
  return goOn.call(this);
};

function failing(asked: { operation: () => unknown }, name: string) {
  const operation = (): never => {
    throw new DOMException("", name);
  };
  return { ...asked, operation };
}

function closed(database: globalThis.IDBDatabase): void {
  // Typed as taking the class.
  forceCloseDatabase(database as unknown as typeof IDBDatabase);
}

/** Does some work while one step of the database, from 0, fails; null: none. Which steps there were. */
export async function withFault<T>(
  fault: { readonly at: number; readonly fault: Fault } | null,
  work: () => Promise<T>,
): Promise<{ readonly steps: readonly Step[]; readonly result: PromiseSettledResult<T> }> {
  planned = fault;
  steps = [];
  const [result] = await Promise.allSettled([work()]);
  planned = null;
  if (!result) throw new RangeError("no result");
  return { steps, result };
}
