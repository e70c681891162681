import { dropConsent, giveConsent } from "./consent.ts";
import { ownScript } from "./own-script.ts";

/** The app as the browser has installed it: its service worker. */
export interface Installation {
  /**
   * Registers the service worker; does nothing where the browser has none. Rejects where it cannot be registered.
   * @param on `newer`: there is a newer version, not yet fetched; `swapped`: another version serves this page from now on
   */
  start(on: { readonly newer: () => void; readonly swapped: () => void }): Promise<void>;
  /** Asks the server now; without a network nothing happens. */
  look(): Promise<void>;
  /** Fetches the newer version and puts it in this one's place. Rejects where that fails: this one stays. */
  swap(): Promise<void>;
  reload(): void;
}

export function createInstallation(script = "./sw.js"): Installation {
  let registration: ServiceWorkerRegistration | null = null;
  return {
    async start({ newer, swapped }) {
      const { serviceWorker } = navigator;
      if (!serviceWorker) return;
      let controlled = serviceWorker.controller !== null;
      serviceWorker.addEventListener("controllerchange", () => {
        if (controlled) swapped();
        controlled = true;
      });
      registration = await serviceWorker.register(ownScript(script), { updateViaCache: "none" });
      const registered = registration;
      registered.addEventListener("updatefound", () => {
        if (registered.active) newer();
      });
      // One that was found while the page was loading has failed already.
      if (controlled) await registered.update().catch(() => undefined);
    },
    async look() {
      await registration?.update().catch(() => undefined);
    },
    async swap() {
      if (!registration) throw new Error("nothing is installed");
      const before = registration.active;
      await giveConsent();
      try {
        await registration.update();
        const next = registration.installing ?? registration.waiting;
        if (next) await activated(next);
        else if (registration.active === before) throw new Error("it is not there any more");
      } catch (error) {
        await dropConsent();
        throw error;
      }
    },
    reload: () => location.reload(),
  };
}

/** Resolves once it serves the pages; rejects where its installation failed. */
function activated(worker: ServiceWorker): Promise<void> {
  return new Promise((resolve, reject) => {
    const look = () => {
      if (worker.state === "activated") resolve();
      if (worker.state === "redundant") reject(new Error("it could not be fetched as a whole"));
    };
    worker.addEventListener("statechange", look);
    look();
  });
}
