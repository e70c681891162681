/** Keeps the screen from going dark by itself. */
export interface WakeLock {
  /** False where the browser cannot: it lacks it, or the page is not on https or localhost. */
  readonly supported: boolean;
  /** From now on, whenever the page is seen; a refusal (a battery that runs low) is taken silently. */
  hold(): void;
  release(): void;
}

/** What is used of the page and the browser. */
export interface Wakeful {
  readonly document: Pick<Document, "visibilityState" | "addEventListener">;
  readonly wakeLock: Pick<Navigator["wakeLock"], "request"> | undefined;
}

export function createWakeLock(
  { document, wakeLock }: Wakeful = { document: globalThis.document, wakeLock: navigator.wakeLock },
): WakeLock {
  let wanted = false;
  let held: Promise<WakeLockSentinel | null> | null = null;

  const take = (): void => {
    if (!wanted || !wakeLock || held || document.visibilityState !== "visible") return;
    const asked = wakeLock.request("screen").catch(() => null);
    held = asked;
    void asked.then((sentinel) => {
      // The browser takes it back whenever the page is hidden.
      const lost = () => {
        if (held === asked) held = null;
      };
      if (sentinel) sentinel.addEventListener("release", lost);
      else lost();
    });
  };
  document.addEventListener("visibilitychange", take);

  return {
    supported: wakeLock !== undefined,
    hold() {
      wanted = true;
      take();
    },
    release() {
      wanted = false;
      const asked = held;
      held = null;
      void asked?.then((sentinel) => sentinel?.release());
    },
  };
}
