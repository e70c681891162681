import { ownScript } from "./own-script.ts";

/** How work in a worker ended. */
export type Ended<Done> =
  | Done
  | { readonly kind: "cancelled" }
  /** `reason` is without a full stop. */
  | Failed;

interface Failed {
  readonly kind: "failed";
  readonly reason: string;
}

interface Progress {
  readonly kind: "progress";
  /** Done of the whole, 0 to 1. */
  readonly fraction: number;
}

/** What the worker says: how far it is, and once what came of it. */
export type FromWork<Done> = Progress | Done | Failed;

/** Long work that runs in a worker of its own. */
export interface Work<Done> {
  /** Never rejects. */
  readonly outcome: Promise<Ended<Done>>;
  /** Ends it at once; of what was half-done nothing is left. After its end it does nothing. */
  cancel(): void;
}

const NOT_STARTED = "what learns could not be started: reload the page while online";

/**
 * @param url of the worker's script, as Vite gives it
 * @param request its first and only message
 * @param progress told the fraction done, 0 to 1
 */
export function startWork<Done extends { readonly kind: string }>(
  url: string,
  request: unknown,
  progress: (fraction: number) => void,
): Work<Done> {
  const worker = new Worker(ownScript(url), { type: "module" });
  let end: (outcome: Ended<Done>) => void = () => undefined;
  const outcome = new Promise<Ended<Done>>((resolve) => {
    end = (how) => {
      worker.terminate();
      resolve(how);
    };
    worker.addEventListener("error", () => end({ kind: "failed", reason: NOT_STARTED }));
    worker.addEventListener("message", ({ data }: MessageEvent<FromWork<Done>>) => {
      if (isProgress(data)) progress(data.fraction);
      else end(data);
    });
  });
  worker.postMessage(request);
  return { outcome, cancel: () => end({ kind: "cancelled" }) };
}

function isProgress<Done extends { readonly kind: string }>(said: FromWork<Done>): said is Progress {
  return said.kind === "progress";
}
