import { expect, test } from "vitest";
import { withMicrophone } from "./microphone.ts";

// The microphone itself: refused, lost, opened by a tap and let go.

const QUIET = { phrases: [], before: 60 };
/** The key words have a microphone of their own: a second one that is opened, and has to be let go. */
const KEY_WORDS = { keyWords: true };

test("a microphone that is refused is one sentence, the light is off, and a tap asks again", () =>
  withMicrophone(
    QUIET,
    async (app) => {
      await app.startVisit();
      for (let taps = 0; taps < 2; taps++) {
        await app.page.locator(".ear").click();
        expect(await app.text(".ear-trouble")).toBe(
          "The microphone is not allowed: allow it for this page in the browser's settings, or type.",
        );
        expect(await app.text(".ear-state")).toBe("Not listening");
        expect(await app.page.locator(".ear-problem[aria-pressed=false]").count()).toBe(1);
      }
      await expect.poll(() => app.earWorkers()).toEqual([]);
    },
    { allowed: false },
  ));

test("a microphone that is lost is one sentence, is let go, and a tap opens it anew", () =>
  withMicrophone(
    QUIET,
    async (app) => {
      await app.keepMicrophones();
      await app.startVisit();
      await app.listen();
      await expect.poll(() => app.open()).toBe(2);
      // What a pulled plug does: the track is over, and says so.
      await app.page.evaluate(() => {
        for (const track of (globalThis as unknown as { tracks: MediaStreamTrack[] }).tracks) {
          track.stop();
          track.dispatchEvent(new Event("ended"));
        }
      });
      expect(await app.text(".ear-trouble")).toBe(
        "The microphone was lost: plug it in and start listening again, or type.",
      );
      expect(await app.page.locator(".ear-problem[aria-pressed=false]").count()).toBe(1);
      await expect.poll(() => app.earWorkers()).toEqual([]);
      await app.listen();
      expect(await app.page.locator(".ear-trouble").count()).toBe(0);
      await expect.poll(() => app.open()).toBe(2);
    },
    KEY_WORDS,
  ));

test("one tap anywhere on the listening area starts, and one stops and lets the microphone go", () =>
  withMicrophone(
    QUIET,
    async (app) => {
      await app.keepMicrophones();
      await app.startVisit();
      const area = await app.page.locator(".ear-area").boundingBox();
      if (!area) throw new Error("Expected the listening area on the screen.");
      const { x, y, width, height } = area;
      const tap = (right: number, down: number) => app.page.mouse.click(x + width * right, y + height * down);
      const stopped = app.page.locator(".ear-off");
      // Near each corner and half-way: starts and stops take turns.
      for (const [start, stop] of [
        [0.03, 0.97],
        [0.97, 0.5],
      ] as const) {
        await tap(start, 0.08);
        await app.page.locator(".ear-listening").waitFor({ timeout: 60_000 });
        await expect.poll(() => app.open()).toBe(2);
        await tap(stop, 0.92);
        await stopped.waitFor();
        await expect.poll(() => app.open()).toBe(0);
        await expect.poll(() => app.earWorkers()).toEqual([]);
      }
      expect(app.errors).toEqual([]);
    },
    KEY_WORDS,
  ));

test("whichever way the boiler is left, the microphone is let go", () =>
  withMicrophone(
    QUIET,
    async (app) => {
      await app.keepMicrophones();
      await app.startVisit();
      const leave = async (how: () => Promise<unknown>) => {
        await app.listen();
        await expect.poll(() => app.open()).toBe(2);
        await how();
        await expect.poll(() => app.open()).toBe(0);
        await expect.poll(() => app.earWorkers()).toEqual([]);
      };
      await leave(() => app.page.getByRole("button", { name: "To the start" }).click());
      await app.page
        .getByRole("button", { name: /^Go on: /u })
        .first()
        .click();
      await leave(() => app.page.goBack());
      expect(app.errors).toEqual([]);
    },
    KEY_WORDS,
  ));

test("an ear whose engine cannot be loaded lets the microphone go, and says so", () =>
  withMicrophone(QUIET, async (app) => {
    await app.launched.context.route(/\/ear\/(worker|weights)/, (route) => route.abort());
    await app.keepMicrophones();
    await app.startVisit();
    await app.page.locator(".ear").click();
    expect(await app.text(".ear-trouble")).toMatch(/^The offline ear could not be loaded/);
    expect(await app.tracks()).toEqual(["ended"]);
    await expect.poll(() => app.earWorkers()).toEqual([]);
  }));
