import { fetchEarAssets } from "./assets-browser.ts";
import { withLearned } from "./learned.ts";
import { EAR_RATE } from "./mel.ts";
import type { FromWorker, ToWorker } from "./messages.ts";
import { MICROPHONE_RATE } from "./microphone-rate.ts";
import { createRecogniser, type Recogniser } from "./recogniser.ts";
import { createResampler, type Resampler } from "./resample.ts";

/** The recogniser off the page's thread. Sound that comes before it is ready is dropped. */
const tell = (message: FromWorker): void => self.postMessage(message);

interface Chain {
  readonly resampler: Resampler;
  readonly recogniser: Recogniser;
}

let chain: Chain | null = null;
/** The voice detector is a little late, and so is a loudspeaker: what begins this soon after the app's voice is still over it. */
const ECHO_MS = 250;
let sounding = false;
let sounded = Number.NEGATIVE_INFINITY;

self.addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  switch (data.kind) {
    case "start":
      start(data).catch(failed);
      return;
    case "voice":
      if (sounding && !data.sounding) sounded = performance.now();
      sounding = data.sounding;
  }
});

async function start({ language, sound, phones }: Extract<ToWorker, { kind: "start" }>): Promise<void> {
  const shipped = await fetchEarAssets((fraction) => tell({ kind: "loading", fraction }));
  const assets = await withLearned(shipped, phones);
  const resampler = await createResampler(MICROPHONE_RATE, EAR_RATE, "stream");
  chain = { resampler, recogniser: createRecogniser(assets, language, () => performance.now()) };
  sound.addEventListener("message", ({ data }: MessageEvent<Float32Array>) => hear(data));
  sound.start();
  tell({ kind: "ready" });
}

function hear(samples: Float32Array): void {
  if (!chain) return;
  chain.recogniser.over(sounding || performance.now() - sounded < ECHO_MS);
  try {
    for (const heard of chain.recogniser.hear(chain.resampler.resample(samples))) tell(heard);
  } catch (error) {
    chain = null;
    failed(error);
  }
}

function failed(error: unknown): void {
  tell({ kind: "failed", reason: error instanceof Error ? error.message : String(error) });
}
