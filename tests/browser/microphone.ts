import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { dictate, type Voice, wavOf } from "../support/speech/speak.ts";
import { type App, type OpenOptions, withApp } from "./app.ts";

/** What the microphone hears: phrases in a voice, with seconds of quiet before the first and after each. */
export interface Said {
  readonly voice?: Voice;
  readonly phrases: readonly string[];
  readonly before?: number;
  readonly pause?: number;
}

/**
 * Opens the app in a browser whose microphone hears these phrases, long enough after it opens: the recording starts then,
 * and sound that comes before the recogniser is up is dropped. Key words are listened for only where the test says so.
 */
export async function withMicrophone(
  { voice = "rms", phrases, before = 10, pause = 4 }: Said,
  work: (app: App) => Promise<void>,
  options: Omit<OpenOptions, "served" | "profile" | "microphone"> = {},
): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "burnerside-voice-"));
  const microphone = join(folder, "microphone.wav");
  try {
    await writeFile(microphone, wavOf(await dictate(phrases, { voice, before, pause })));
    await withApp({ keyWords: false, ...options, microphone }, work);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
