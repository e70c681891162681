/** The system clock as ISO 8601 in UTC with milliseconds. The only place that reads it. */
export function now(): string {
  return new Date().toISOString();
}

/** The IANA zone of the device, e.g. "Europe/Vienna"; null where the platform does not know it. */
export function zone(): string | null {
  return Intl.DateTimeFormat().resolvedOptions().timeZone || null;
}

/** Calls back every `ms` milliseconds until the returned function is called. */
export function every(ms: number, tick: () => void): () => void {
  const timer = setInterval(tick, ms);
  return () => clearInterval(timer);
}

/** Calls back once after `ms` milliseconds, unless the returned function is called before. */
export function after(ms: number, then: () => void): () => void {
  const timer = setTimeout(then, ms);
  return () => clearTimeout(timer);
}

/** Resolves after `ms` milliseconds, or at once when the signal aborts. */
export function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const stop = after(ms, resolve);
    const end = () => {
      stop();
      resolve();
    };
    if (signal.aborted) end();
    else signal.addEventListener("abort", end, { once: true });
  });
}

/** Milliseconds of a clock that never goes back, from an arbitrary start. */
export function elapsedMs(): number {
  return performance.now();
}

/** Resolves once what was rendered is drawn; a page that is not seen draws nothing, and is waited for a second. */
export function painted(): Promise<void> {
  return new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve, 0));
    setTimeout(resolve, 1000);
  });
}
