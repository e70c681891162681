import metadata from "../../../grammars/en/spotter/metadata.json?url&no-inline";
import model from "../../../grammars/en/spotter/model.json?url&no-inline";
import weights from "../../../grammars/en/spotter/weights.bin?url&no-inline";
import type { BaseModel, SpotterModel } from "./base.ts";
import type { TaughtSpotter } from "./profile.ts";
import { readBase } from "./read-base.ts";
import { applyTaught, type Refusal } from "./taught.ts";

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

/** What the spotter is to listen with. */
export interface FetchedModel {
  readonly model: SpotterModel;
  /** Why it is the shipped model, though a person taught his own. */
  readonly refusal: Refusal | null;
}

/**
 * The shipped model with what a person taught laid onto it; without it where that does not fit, for the key words must always work.
 * @throws (rejects) as `fetchBaseModel`
 */
export async function fetchSpotterModel(taught: TaughtSpotter | null): Promise<FetchedModel> {
  const base = await fetchBaseModel();
  if (!taught) return { model: base, refusal: null };
  const applied = applyTaught(base, taught);
  return applied.ok ? { model: applied.model, refusal: null } : { model: base, refusal: applied.refusal };
}
