import type { CDPSession, Page } from "playwright-core";

/**
 * The phone that the page is measured on. Lighthouse's mobile profile, "slow 4G" (GoogleChrome/lighthouse,
 * core/config/constants.js, mobileSlow4G; from memory): 150 ms, 1.6 Mbit/s down, 750 kbit/s up, a processor four times as slow.
 */
export const PHONE = { latencyMs: 150, downKbps: 1638.4, upKbps: 750, slower: 4 } as const;

/** What one load of the page transferred, in bytes as they came over the network. */
export interface Transferred {
  /** Scripts alone, and everything. */
  readonly script: number;
  readonly all: number;
}

export interface Phone {
  /** Since the last call. */
  transferred(): Transferred;
}

/** Makes the page as slow as the phone, and counts what it is sent. */
export async function asPhone(page: Page, slower: number = PHONE.slower, network = true): Promise<Phone> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("Network.enable");
  if (network) {
    await cdp.send("Network.emulateNetworkConditions", {
      offline: false,
      latency: PHONE.latencyMs,
      downloadThroughput: (PHONE.downKbps * 1024) / 8,
      uploadThroughput: (PHONE.upKbps * 1024) / 8,
    });
  }
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: slower });
  await page.setViewportSize({ width: 390, height: 844 });
  return count(cdp);
}

function count(cdp: CDPSession): Phone {
  const scripts = new Set<string>();
  let script = 0;
  let all = 0;
  cdp.on("Network.requestWillBeSent", ({ requestId, type, request }) => {
    if (type === "Script" || /\.js(\?|$)/.test(request.url)) scripts.add(requestId);
  });
  cdp.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
    all += encodedDataLength;
    if (scripts.has(requestId)) script += encodedDataLength;
  });
  return {
    transferred() {
      const now = { script, all };
      script = 0;
      all = 0;
      return now;
    },
  };
}

/** Runs in the page before the app: notes long tasks, and when a selector was first drawn. */
export function watchPage(): void {
  const tasks: { at: number; ms: number }[] = [];
  const drawn: Record<string, number> = {};
  Object.assign(globalThis, { tasks, drawn });
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) tasks.push({ at: startTime, ms: duration });
  }).observe({ type: "longtask", buffered: true });
  const wanted = [".plate button", ".start .main-button", ".face", ".line"];
  const look = (): void => {
    for (const selector of wanted) {
      if (!(selector in drawn) && document.querySelector(selector)) drawn[selector] = performance.now();
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

export function drawnAt(page: Page, selector: string): Promise<number> {
  return page
    .waitForFunction((name) => Reflect.get(Reflect.get(globalThis, "drawn"), name), selector, {
      timeout: 120_000,
    })
    .then((handle) => handle.jsonValue());
}

/** The longest task since a time of the page's clock, ms; 0 where none was longer than 50. */
export function longestTask(page: Page, since = 0): Promise<number> {
  return page.evaluate((from) => {
    const tasks: { at: number; ms: number }[] = Reflect.get(globalThis, "tasks");
    return Math.max(0, ...tasks.filter(({ at }) => at >= from).map(({ ms }) => ms));
  }, since);
}

export function pageTime(page: Page): Promise<number> {
  return page.evaluate(() => performance.now());
}
