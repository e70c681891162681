import metadata from "../../../grammars/en/spotter/metadata.json?url&no-inline";
import model from "../../../grammars/en/spotter/model.json?url&no-inline";
import weights from "../../../grammars/en/spotter/weights.bin?url&no-inline";
import type { BaseModel } from "./base.ts";
import { readBase } from "./read-base.ts";

/**
 * Fetches the shipped key-word model from the app's own origin.
 * @throws (rejects) naming the file that could not be fetched, or what is wrong with it
 */
export async function fetchBaseModel(): Promise<BaseModel> {
  const fetched = async (url: string): Promise<Response> => {
    const response = await fetch(url);
    if (!response.ok) throw new Error(`${url}: status ${response.status}`);
    return response;
  };
  const [described, labelled, weighed] = await Promise.all([
    fetched(model).then((response) => response.text()),
    fetched(metadata).then((response) => response.text()),
    fetched(weights).then((response) => response.arrayBuffer()),
  ]);
  return readBase({ model: described, metadata: labelled, weights: new Uint8Array(weighed) });
}
