import type { EarLanguage } from "../../../meaning/network.ts";
import { ownScript } from "../../own-script.ts";
import type { AdaptOutcome, ConfirmedClip } from "./adapt.ts";
import workerUrl from "./adapt.worker.ts?worker&url";

export interface AdaptRequest {
  readonly language: EarLanguage;
  /** Oldest first. */
  readonly clips: readonly ConfirmedClip[];
}

/** What came of it; `base` is the SHA-256 of the weights that it was learned on, base64url. */
export type Adapted =
  | (AdaptOutcome & { readonly base: string })
  | { readonly kind: "cancelled" }
  | { readonly kind: "failed"; readonly reason: string };

export type FromAdapter =
  | { readonly kind: "progress"; readonly fraction: number }
  | Exclude<Adapted, { readonly kind: "cancelled" }>;

/** A training that runs in a worker of its own. */
export interface Adapting {
  /** Never rejects. */
  readonly outcome: Promise<Adapted>;
  /** Ends it at once; of what was half-learned nothing is left. After its end it does nothing. */
  cancel(): void;
}

const NOT_STARTED = "what learns could not be started: reload the page while online";

/** @param progress told the fraction done, 0 to 1 */
export function startAdapting(request: AdaptRequest, progress: (fraction: number) => void): Adapting {
  const worker = new Worker(ownScript(workerUrl), { type: "module" });
  let end: (outcome: Adapted) => void = () => undefined;
  const outcome = new Promise<Adapted>((resolve) => {
    end = (how) => {
      worker.terminate();
      resolve(how);
    };
    worker.addEventListener("error", () => end({ kind: "failed", reason: NOT_STARTED }));
    worker.addEventListener("message", ({ data }: MessageEvent<FromAdapter>) => {
      if (data.kind === "progress") progress(data.fraction);
      else end(data);
    });
  });
  worker.postMessage(request);
  return { outcome, cancel: () => end({ kind: "cancelled" }) };
}
