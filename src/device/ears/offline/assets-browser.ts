import "@tensorflow/tfjs-backend-webgl";
import manifest from "../../../../grammars/en/acoustic/model.json?url&no-inline";
import weights from "../../../../grammars/en/acoustic/weights.bin?url&no-inline";
import { startBackend } from "./backend.ts";
import type { EarAssets } from "./recogniser.ts";
import { placeWasm } from "./wasm-browser.ts";
import { readManifest } from "./weights.ts";

/** What the files weigh, in bytes, for the progress alone: a server that compresses does not tell. */
const EXPECTED_BYTES = 2_756_000;

/**
 * Fetches the model from the app's own origin and starts what computes it: WebAssembly, else the graphics card.
 * @param progress told the fraction loaded, 0 to 1
 * @throws (rejects) naming the file that could not be fetched
 */
export async function fetchEarAssets(progress: (fraction: number) => void): Promise<EarAssets> {
  placeWasm();
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
  const [description, bytes] = await Promise.all([
    fetched(manifest),
    fetched(weights),
    startBackend(["wasm", "webgl"]),
  ]);
  return { manifest: readManifest(new TextDecoder().decode(description)), weights: bytes };
}
