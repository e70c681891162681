import { sha256OfBytes } from "../../signing/sha256.ts";
import { adaptPhones } from "./adapt.ts";
import type { AdaptRequest, FromAdapter } from "./adapting.ts";
import { fetchEarAssets } from "./assets-browser.ts";

/** Learns off the page's thread; it is ended from outside. */
const tell = (message: FromAdapter): void => self.postMessage(message);

/** Of the whole: the rest is learning. */
const LOADING = 0.05;

self.addEventListener("message", ({ data }: MessageEvent<AdaptRequest>) => {
  adapted(data).then(tell, (error: unknown) =>
    tell({ kind: "failed", reason: error instanceof Error ? error.message : String(error) }),
  );
});

async function adapted({ language, clips }: AdaptRequest): Promise<FromAdapter> {
  const assets = await fetchEarAssets((fraction) => tell({ kind: "progress", fraction: LOADING * fraction }));
  const base = await sha256OfBytes(assets.weights);
  const outcome = adaptPhones(assets, language, clips, (fraction) =>
    tell({ kind: "progress", fraction: LOADING + (1 - LOADING) * fraction }),
  );
  return { ...outcome, base };
}
