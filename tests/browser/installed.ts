import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { type Served, serveApp } from "../support/browser/serve.ts";
import { App, type OpenOptions } from "./app.ts";

/** Waits until the service worker has kept the shell and serves this page. */
export async function untilInstalled(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
}

/** Closes the browser. What its own cache of loads holds is deleted: on a device it may be gone any time. */
export async function closeForgetful({ page, launched }: App): Promise<void> {
  const cdp = await launched.context.newCDPSession(page);
  await cdp.send("Network.clearBrowserCache");
  await launched.close();
}

/** One device that keeps its profile, and a server that comes and goes at the same address. */
export interface Device {
  /** Opens the app in a fresh browser on the device's profile; the one before must be closed. */
  open(options?: Omit<OpenOptions, "served" | "profile">): Promise<App>;
  /** Takes the server away, as a cellar takes the network. */
  goOffline(): Promise<void>;
  /** Serves a folder at the same address. */
  goOnline(folder?: string): Promise<void>;
}

export async function withDevice(work: (device: Device) => Promise<void>, folder = "dist"): Promise<void> {
  const profile = await mkdtemp(join(tmpdir(), "burnerside-device-"));
  let server: Served | null = await serveApp(folder);
  const served = server;
  const port = Number(new URL(served.url).port);
  const opened: App[] = [];
  const goOffline = async () => {
    await server?.close();
    server = null;
  };
  try {
    await work({
      async open(options = {}) {
        const app = await App.open({ served, profile, ...options });
        opened.push(app);
        return app;
      },
      goOffline,
      async goOnline(other = folder) {
        await goOffline();
        server = await serveApp(other, port);
      },
    });
  } finally {
    await opened.at(-1)?.launched.close();
    await goOffline();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}
