import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";
import { untilInstalled } from "./installed.ts";

const openSettings = (app: App) => app.page.getByText("Settings", { exact: true }).click();
const row = (app: App, name: string) => app.page.locator(".ahead", { hasText: name });

// W3C Web Application Manifest: name, start, display and icons as the browser itself reads them.
test("the browser finds nothing that keeps the app from being installed", () =>
  withApp({}, async (app) => {
    await untilInstalled(app.page);
    const cdp = await app.launched.context.newCDPSession(app.page);
    const { errors, data = "" } = await cdp.send("Page.getAppManifest");
    const { installabilityErrors } = await cdp.send("Page.getInstallabilityErrors");
    expect([errors, installabilityErrors]).toEqual([[], []]);
    const manifest = JSON.parse(data);
    expect(manifest).toMatchObject({ name: "Burnerside", display: "standalone", orientation: "any" });
    const pictures = await app.page.evaluate(
      (icons: { src: string; sizes: string }[]) =>
        Promise.all(
          icons.map(async ({ src, sizes }) => {
            const picture = new Image();
            picture.src = src;
            await picture.decode();
            return sizes === "any" || sizes === `${picture.naturalWidth}x${picture.naturalHeight}`;
          }),
        ),
      manifest.icons,
    );
    expect(pictures).toEqual([true, true, true, true]);
    expect(app.errors).toEqual([]);
  }));

test("fetching ahead shows how far it is, can be cancelled, and goes on from there", () =>
  withApp({}, async (app) => {
    await untilInstalled(app.page);
    await openSettings(app);
    // The weights do not come until they may.
    let release = (): void => undefined;
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    await app.launched.context.route(/weights.*\?ahead/, async (route) => {
      await held;
      await route.continue().catch(() => undefined);
    });
    const fetch = app.page.getByRole("button", { name: "Recogniser: fetch for offline use" });
    await fetch.click();
    const progress = app.page.getByRole("progressbar", { name: "Fetching the recogniser" });
    await progress.waitFor();
    await expect
      .poll(() => progress.evaluate((bar) => (bar as HTMLProgressElement).value))
      .toBeGreaterThan(0);
    // One file comes after the other: those before the weights are here.
    await expect.poll(() => app.requests.some((url) => /weights.*\?ahead/.test(url))).toBe(true);
    await row(app, "Recogniser").getByRole("button", { name: "Cancel" }).click();
    await fetch.waitFor();
    expect(await row(app, "Recogniser").textContent()).toMatch(/^Recogniser: not here yet, [\d.]+ MB/);
    app.requests.length = 0;
    await fetch.click();
    await expect.poll(() => app.requests.filter((url) => /weights/.test(url)).length).toBeGreaterThan(0);
    release();
    await app.page.getByText(/^Recogniser: here, /).waitFor();
    // What had come before was not fetched again.
    expect(app.requests.filter((url) => /model/.test(url))).toEqual([]);
  }));

test("a file that fails holds up none of the others, is told, and is all that the next fetch fetches", () =>
  withApp({}, async (app) => {
    await untilInstalled(app.page);
    await openSettings(app);
    let tries = 0;
    await app.launched.context.route(/Condensed-Bold.*\?ahead/, (route) => {
      tries += 1;
      return route.abort();
    });
    const fetch = app.page.getByRole("button", { name: "PDF maker: fetch for offline use" });
    await fetch.click();
    await app.page
      .getByText(
        /^Still missing: 1 of 4 files of the PDF maker \(.+\); fetch again where there is a network\.$/,
      )
      .waitFor();
    expect(tries).toBe(3);
    await app.launched.context.unroute(/Condensed-Bold.*\?ahead/);
    app.requests.length = 0;
    await fetch.click();
    await app.page.getByText(/^PDF maker: here, /).waitFor();
    expect(app.requests.filter((url) => url.includes("?ahead"))).toEqual([
      expect.stringContaining("Condensed-Bold"),
    ]);
    expect(await app.page.getByText(/^Still missing/).count()).toBe(0);
  }));

test("how much is stored is shown, and of what", () =>
  withApp({}, async (app) => {
    await openSettings(app);
    await app.page
      .getByText(/^Stored here: [\d.]+ \w+, of that [\d.]+ \w+ visits, sheets and kept sound\./)
      .waitFor();
  }));

/** Runs in the page before the app: counts the wake locks that it holds. */
function countLocks(): void {
  const held = { locks: 0 };
  Object.assign(globalThis, { held });
  WakeLock.prototype.request = async () => {
    held.locks += 1;
    const sentinel = new EventTarget() as WakeLockSentinel;
    const release = async () => {
      held.locks -= 1;
      sentinel.dispatchEvent(new Event("release"));
    };
    return Object.assign(sentinel, { release });
  };
}

test("the screen stays on from the start of a visit to its end", () =>
  withApp({}, async (app) => {
    await app.page.addInitScript(countLocks);
    await app.load();
    const locks = () => app.page.evaluate(() => Reflect.get(Reflect.get(globalThis, "held"), "locks"));
    await untilInstalled(app.page);
    expect(await locks()).toBe(0);
    await app.startVisit();
    await expect.poll(locks).toBe(1);
    await app.type("finish visit");
    await expect.poll(locks).toBe(0);
    await app.page.getByRole("button", { name: "To the start" }).click();
    await app.page.locator(".nameplate").waitFor();
    await expect.poll(locks).toBe(0);
  }));
