import { ownScript } from "../own-script.ts";
import type { BaseModel } from "./base.ts";
import type { Gain, TaughtSpotter } from "./profile.ts";
import type { Take } from "./take.ts";
import type { TeachOptions } from "./teach.ts";
import workerUrl from "./teach.worker.ts?worker&url";

export interface TeachRequest {
  readonly base: BaseModel;
  /** Two classes at least; better all, with some of the room's own noise. */
  readonly takes: readonly Take[];
  /** Takes that are not learned from: what was gained is measured on them. */
  readonly heldBack: readonly Take[];
  readonly options: Partial<TeachOptions>;
}

export type TeachOutcome =
  /** `gain` is null where nothing was held back. */
  | { readonly kind: "taught"; readonly taught: TaughtSpotter; readonly gain: Gain | null }
  | { readonly kind: "cancelled" }
  | { readonly kind: "failed"; readonly reason: string };

export type FromTeacher =
  | { readonly kind: "progress"; readonly fraction: number }
  | Exclude<TeachOutcome, { readonly kind: "cancelled" }>;

/** A training that runs in a worker of its own. */
export interface Teaching {
  /** Never rejects. */
  readonly outcome: Promise<TeachOutcome>;
  /** Ends it at once; of what was half-learned nothing is left. After its end it does nothing. */
  cancel(): void;
}

const NOT_STARTED = "what teaches could not be started: reload the page while online";

/** @param progress told the fraction done, 0 to 1 */
export function startTeaching(request: TeachRequest, progress: (fraction: number) => void): Teaching {
  const worker = new Worker(ownScript(workerUrl), { type: "module" });
  let end: (outcome: TeachOutcome) => void = () => undefined;
  const outcome = new Promise<TeachOutcome>((resolve) => {
    end = (how) => {
      worker.terminate();
      resolve(how);
    };
    worker.addEventListener("error", () => end({ kind: "failed", reason: NOT_STARTED }));
    worker.addEventListener("message", ({ data }: MessageEvent<FromTeacher>) => {
      if (data.kind === "progress") progress(data.fraction);
      else end(data);
    });
  });
  worker.postMessage(request);
  return { outcome, cancel: () => end({ kind: "cancelled" }) };
}
