import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { untilInstalled, withDevice } from "./installed.ts";

/** Another version of the built app: its page has another title. */
async function withNewer(work: (folder: string) => Promise<void>): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "burnerside-newer-"));
  const change = async (name: string, from: RegExp, to: string) => {
    const text = await readFile(join(folder, name), "utf8");
    expect(text).toMatch(from);
    await writeFile(join(folder, name), text.replace(from, to));
  };
  try {
    await cp("dist", folder, { recursive: true });
    for (const packed of ["index.html.br", "index.html.gz"]) await rm(join(folder, packed));
    await change(
      "index.html",
      /<title>Burnerside<\/title>/,
      '<title>Burnerside</title><meta name="release" content="newer">',
    );
    await change(
      "sw.js",
      /(index\.html[^}]*revision[^}]*?)[0-9a-f]{32}|[0-9a-f]{32}(?=[^}]*index\.html)/,
      "$1newer",
    );
    await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Has the browser ask the server for a newer version, and waits until it has dealt with what it found. */
const look = (page: Page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    const found = new Promise<boolean>((resolve) => {
      registration.addEventListener("updatefound", () => {
        const { installing } = registration;
        installing?.addEventListener("statechange", () => resolve(installing.state === "redundant"));
      });
    });
    await registration.update();
    return found;
  });

/** Which version a page is of. Its title is the visit's while there is one. */
const version = async (page: Page) =>
  (await page.locator('meta[name="release"]').count()) > 0 ? "newer" : "this";
const offer = (page: Page) => page.locator(".start > .update");

test("a newer version waits for consent: not during a visit, not over a restart, not under another window's visit", () =>
  withNewer((newer) =>
    withDevice(async (device) => {
      const first = await device.open();
      await untilInstalled(first.page);
      await first.startVisit();
      await first.type("high fire CO2 nine point two, CO forty");
      const stored = await first.stored();
      await device.goOnline(newer);
      expect(await look(first.page)).toBe(true);
      await first.load();
      await first.type("low fire");
      expect([await version(first.page), await first.page.locator(".update").count()]).toEqual(["this", 0]);
      await first.launched.close();

      const app = await device.open();
      await app.page.locator(".face").waitFor();
      expect(await version(app.page)).toBe("this");
      expect((await app.stored()).slice(0, stored.length)).toEqual(stored);

      await app.page.getByRole("button", { name: "To the start" }).click();
      await offer(app.page).waitFor();

      // A visit in another window keeps it from taking over.
      const other = await app.launched.context.newPage();
      await other.goto(app.served.url);
      await other.getByLabel("In one sentence").fill("wall-hung 35, natural gas, go");
      await other.getByLabel("In one sentence").press("Enter");
      await other.locator(".face").waitFor();
      await offer(app.page).getByRole("button").click();
      await app.page.getByText("A visit runs in another window: finish or leave it first.").waitFor();
      await other.getByLabel("Or type").fill("high fire CO2 nine point one");
      await other.getByLabel("Or type").press("Enter");
      await other.locator(".line", { hasText: "CO2 9.1 %" }).waitFor();
      expect([await version(app.page), await version(other)]).toEqual(["this", "this"]);
      await other.getByRole("button", { name: "To the start" }).click();
      await offer(other).waitFor();

      const entries = await app.stored();
      await offer(app.page).getByRole("button").click();
      for (const page of [app.page, other]) {
        await page.locator('meta[name="release"]').waitFor({ state: "attached" });
        await page.locator(".start").waitFor();
        expect(await offer(page).count()).toBe(0);
      }
      expect(await app.stored()).toEqual(entries);
      expect(entries).toEqual(expect.arrayContaining(stored));
      await app.page.getByRole("button", { name: "Go on" }).last().click();
      await app.page.locator(".line", { hasText: "CO2 9.2 %" }).waitFor();
      expect(app.errors).toEqual([]);
    }),
  ));

test("a newer version that cannot be fetched as a whole leaves this one as it is", () =>
  withNewer((newer) =>
    withDevice(async (device) => {
      const app = await device.open();
      await untilInstalled(app.page);
      await device.goOnline(newer);
      await app.load();
      await offer(app.page).waitFor();
      await device.goOffline();
      await offer(app.page).getByRole("button").click();
      await app.page.getByText(/The newer version could not be fetched/).waitFor();
      await app.load();
      expect(await version(app.page)).toBe("this");

      // Nor does the consent that came to nothing hold for later.
      await device.goOnline(newer);
      await app.load();
      await offer(app.page).waitFor();
      await app.load();
      expect(await version(app.page)).toBe("this");
    }),
  ));
