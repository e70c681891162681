import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { dictate, wavOf } from "../support/speech/speak.ts";
import { closeForgetful, untilInstalled, withDevice } from "./installed.ts";

// The server is stopped, not only the page's network: the service worker's own fetches must fail too.

test("a cold start without a network: a visit is started, and a typed phrase is answered", () =>
  withDevice(async (device) => {
    const first = await device.open();
    await untilInstalled(first.page);
    await closeForgetful(first);
    await device.goOffline();

    const app = await device.open();
    await app.startVisit();
    await app.type("high fire CO2 nine point two, CO forty");
    expect(await app.texts(".line")).toEqual(
      expect.arrayContaining([expect.stringContaining("CO2 9.2 %"), expect.stringContaining("CO 40 ppm")]),
    );
    expect((await app.spoken()).at(-1)).toMatch(/^C O two, nine point two, C O, forty, four zero, good\./);
    await app.page.getByRole("button", { name: "To the start" }).click();
    await app.page.locator(".nameplate").waitFor();
    await app.page.getByRole("heading", { name: "Earlier visits" }).waitFor();
    expect(app.errors.filter((error) => !/ERR_CONNECTION_REFUSED|sw\.js/.test(error))).toEqual([]);
  }));

test("fetched ahead, the ear listens and the voice is there without a network", async () => {
  const folder = await mkdtemp(join(tmpdir(), "burnerside-voice-"));
  const microphone = join(folder, "microphone.wav");
  try {
    const phrases = ["high fire CO2 nine point two"];
    await writeFile(microphone, wavOf(await dictate(phrases, { voice: "rms", before: 10, pause: 4 })));
    await withDevice(async (device) => {
      const first = await device.open();
      await untilInstalled(first.page);
      await first.page.getByText("Settings", { exact: true }).click();
      for (const name of ["Recogniser", "Voice"]) {
        await first.page.getByRole("button", { name: `${name}: fetch for offline use` }).click();
        await first.page.getByText(new RegExp(`^${name}: here, `)).waitFor({ timeout: 60_000 });
      }
      // Of the three engines the one that this browser computes with.
      expect(first.requests.filter((url) => /tfjs.*\.wasm/.test(url))).toHaveLength(1);
      await closeForgetful(first);
      await device.goOffline();

      const app = await device.open({ microphone, platformVoice: false });
      await app.startVisit();
      await app.listen();
      await app.page.locator(".large").getByText("9.2 %").waitFor({ timeout: 60_000 });
      // Said by the packaged voice: there is no other.
      await app.page.locator(".ear-area.speaking").waitFor();
    });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
