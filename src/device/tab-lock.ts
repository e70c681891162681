/** What the windows of the app on one device must not do at a time. */
export interface TabLock {
  /** Takes part in what must not be disturbed, until the returned function is called. */
  join(): () => void;
  /** Does the work if no window takes part, and keeps others from it meanwhile; whether it was done. */
  alone(work: () => Promise<void>): Promise<boolean>;
}

/** By the Web Locks of the browser; where it lacks them there is one window as far as anybody knows. */
export function createTabLock(name: string, locks: LockManager | null = navigator.locks ?? null): TabLock {
  return {
    join() {
      let leave = (): void => undefined;
      const left = new Promise<void>((resolve) => {
        leave = resolve;
      });
      void locks?.request(name, { mode: "shared" }, () => left);
      return leave;
    },
    async alone(work) {
      if (!locks) {
        await work();
        return true;
      }
      return locks.request(name, { ifAvailable: true }, async (lock) => {
        if (lock) await work();
        return lock !== null;
      });
    },
  };
}
