import { fetchVoice } from "./assets-browser.ts";
import type { FromVoice, ToVoice } from "./messages.ts";
import { createSynthesiser, type Synthesise } from "./synthesise.ts";

/** The synthesiser off the page's thread. It is fetched for the first text; a fetch that failed is tried again. */
let loading: Promise<Synthesise> | null = null;

const tell = (message: FromVoice, transfer: Transferable[] = []): void =>
  self.postMessage(message, { transfer });

self.addEventListener("message", async ({ data: { id, text } }: MessageEvent<ToVoice>) => {
  try {
    loading ??= fetchVoice().then((program) => createSynthesiser(program));
    const synthesise = await loading.catch((error: unknown) => {
      loading = null;
      throw error;
    });
    const sound = await synthesise(text);
    tell({ kind: "sound", id, sound }, [sound.samples.buffer]);
  } catch (error) {
    tell({ kind: "failed", id, reason: error instanceof Error ? error.message : String(error) });
  }
});
