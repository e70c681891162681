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
  /** When something was first drawn, ms from the beginning of the load. */
  drawn(selector: string): Promise<number>;
  /** Taps the middle of something that was drawn; resolves to when the page has dealt with it and drawn, ms. */
  tap(selector: string): Promise<number>;
}

/** What the page tells: something was drawn, or a tap was dealt with. */
interface Told {
  readonly what: string;
  readonly at: number;
}

/**
 * Makes the page as slow as the phone, counts what it is sent, and watches it from outside: what a test driver runs in the
 * page would be slowed down with it.
 */
export async function asPhone(
  page: Page,
  watched: readonly string[],
  slower: number,
  network: boolean,
): Promise<Phone> {
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
  const told = new Map<string, Told>();
  const waiting = new Map<string, (told: Told) => void>();
  await cdp.send("Runtime.enable");
  await cdp.send("Runtime.addBinding", { name: "tellBench" });
  cdp.on("Runtime.bindingCalled", ({ payload }) => {
    const one: Told = JSON.parse(payload);
    told.set(one.what, one);
    waiting.get(one.what)?.(one);
  });
  const once = (what: string): Promise<Told> =>
    new Promise((resolve, reject) => {
      const known = told.get(what);
      if (known) return resolve(known);
      const late = setTimeout(() => reject(new Error(`Waited for ${what}.`)), 60_000);
      waiting.set(what, (one) => {
        clearTimeout(late);
        resolve(one);
      });
    });
  await page.addInitScript(watchPage, [...watched]);
  return {
    transferred: count(cdp),
    drawn: async (selector) => (await once(selector)).at,
    async tap(selector) {
      await once(selector);
      told.delete("tap");
      const { result } = await cdp.send("Runtime.evaluate", {
        expression: `(${middleOf})(${JSON.stringify(selector)})`,
        returnByValue: true,
      });
      const mouse = { ...result.value, button: "left", clickCount: 1 } as const;
      await cdp.send("Input.dispatchMouseEvent", { ...mouse, type: "mousePressed" });
      await cdp.send("Input.dispatchMouseEvent", { ...mouse, type: "mouseReleased" });
      return (await once("tap")).at;
    },
  };
}

function count(cdp: CDPSession): () => Transferred {
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
  return () => {
    const now = { script, all };
    script = 0;
    all = 0;
    return now;
  };
}

/** Runs in the page before the app: notes long tasks, and tells when something was first drawn and when a tap was dealt with. */
function watchPage(watched: readonly string[]): void {
  const tasks: { at: number; ms: number }[] = [];
  Object.assign(globalThis, { tasks });
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) tasks.push({ at: startTime, ms: duration });
  }).observe({ type: "longtask", buffered: true });
  const tell = (what: string) =>
    Reflect.get(globalThis, "tellBench")?.(JSON.stringify({ what, at: performance.now() }));
  // The frame after the next is drawn when what was changed until now has been.
  const drawn = (then: () => void) => requestAnimationFrame(() => setTimeout(then, 0));
  const missing = new Set(watched);
  new MutationObserver(() => {
    for (const selector of missing) {
      if (!document.querySelector(selector)) continue;
      missing.delete(selector);
      drawn(() => tell(selector));
    }
  }).observe(document, { childList: true, subtree: true });
  addEventListener("click", () => drawn(() => tell("tap")));
}

/** Runs in the page: brings an element into sight. */
function middleOf(selector: string): { x: number; y: number } | null {
  const element = document.querySelector(selector);
  element?.scrollIntoView({ block: "center" });
  const box = element?.getBoundingClientRect();
  return box ? { x: box.x + box.width / 2, y: box.y + box.height / 2 } : null;
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
