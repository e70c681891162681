import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { spokenText } from "../../src/answer/spoken.ts";
import { dictate, type Voice, wavOf } from "../support/speech/speak.ts";
import { type App, withApp } from "./app.ts";

/** Opens the app in a browser whose microphone is a voice saying these phrases, long enough after it opens. */
async function withVoice(
  voice: Voice,
  phrases: readonly string[],
  work: (app: App) => Promise<void>,
): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "burnerside-voice-"));
  const microphone = join(folder, "microphone.wav");
  try {
    // The recording starts when the microphone opens; sound that comes before the recogniser is up is dropped.
    await writeFile(microphone, wavOf(await dictate(phrases, { voice, before: 10, pause: 4 })));
    await withApp({ microphone }, work);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

test("spoken readings are heard offline, stored, and answered", () =>
  withVoice("kal16", ["high fire CO2 nine point two, CO forty"], async (app) => {
    await app.startVisit();
    await app.page.locator(".ear").click();
    await app.page.locator(".ear-listening").waitFor();
    await app.page.locator(".answer", { hasText: /./ }).waitFor({ timeout: 60_000 });

    const lines = await app.texts(".line strong");
    expect(lines).toContain("CO2 9.2 %, high fire");
    expect(lines).toContain("CO 40 ppm, high fire");
    expect(await app.spoken()).toEqual([spokenText(await app.text(".answer"))]);

    const before = await app.stored();
    expect(before.map((row) => row.entry.engine)).toEqual(before.map(() => "offline"));
    await app.load();
    expect(await app.texts(".line strong")).toEqual(lines);
    expect(await app.stored()).toEqual(before);
    await app.type("CO forty five");
    expect((await app.stored()).length).toBe(before.length + 1);

    const { origin } = new URL(app.served.url);
    expect(app.requests.filter((url) => !url.startsWith(origin) && !url.startsWith("blob:"))).toEqual([]);
    expect(app.errors).toEqual([]);
  }));

// Said twice: a command that was not heard is said again.
test("“stop listening” stops the ear", () =>
  withVoice("rms", ["stop listening", "stop listening"], async (app) => {
    await app.startVisit();
    await app.page.locator(".ear").click();
    await app.page.locator(".ear-listening").waitFor();
    await app.page.locator(".ear-off").waitFor({ timeout: 60_000 });
    expect(await app.spoken()).toEqual(["Not listening."]);
  }));
