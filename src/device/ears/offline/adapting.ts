import type { EarLanguage } from "../../../meaning/network.ts";
import { type Ended, type FromWork, startWork, type Work } from "../../work.ts";
import type { AdaptOutcome, ConfirmedClip } from "./adapt.ts";
import workerUrl from "./adapt.worker.ts?worker&url";

export interface AdaptRequest {
  readonly language: EarLanguage;
  /** Oldest first. */
  readonly clips: readonly ConfirmedClip[];
}

/** What came of it; `base` is the SHA-256 of the weights that it was learned on, base64url. */
type Learned = AdaptOutcome & { readonly base: string };
export type Adapted = Ended<Learned>;
export type FromAdapter = FromWork<Learned>;
/** A training that runs in a worker of its own. */
export type Adapting = Work<Learned>;

/** @param progress told the fraction done, 0 to 1 */
export function startAdapting(request: AdaptRequest, progress: (fraction: number) => void): Adapting {
  return startWork(workerUrl, request, progress);
}
