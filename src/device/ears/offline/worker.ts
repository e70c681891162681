import { fetchEarAssets } from "./assets-browser.ts";
import type { FromWorker, ToWorker } from "./messages.ts";
import { createRecogniser, type Recogniser } from "./recogniser.ts";

/** The recogniser off the page's thread. Sound that comes before it is ready is dropped. */
const tell = (message: FromWorker): void => self.postMessage(message);

let recogniser: Recogniser | null = null;
let deaf = false;

self.addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  switch (data.kind) {
    case "start":
      start(data).catch(failed);
      return;
    case "deafen":
      deaf = data.deaf;
      recogniser?.reset();
  }
});

async function start({ language, sound }: Extract<ToWorker, { kind: "start" }>): Promise<void> {
  const assets = await fetchEarAssets((fraction) => tell({ kind: "loading", fraction }));
  recogniser = await createRecogniser(assets, language, () => performance.now());
  sound.addEventListener("message", ({ data }: MessageEvent<Float32Array>) => hear(data));
  sound.start();
  tell({ kind: "ready" });
}

function hear(samples: Float32Array): void {
  if (deaf || !recogniser) return;
  try {
    for (const heard of recogniser.hear(samples)) tell(heard);
  } catch (error) {
    recogniser = null;
    failed(error);
  }
}

function failed(error: unknown): void {
  tell({ kind: "failed", reason: error instanceof Error ? error.message : String(error) });
}
