import type { ExportKind } from "./export-kinds.ts";
import type { FromOffice, ToOffice } from "./messages.ts";
import type { Told } from "./take-in.ts";

/** What does the long work of the office off the page's thread. */
export interface Helper {
  /** Takes in files; resolves to whether it was stopped. One at a time. Rejects where storing fails. */
  take(files: readonly File[], tell: (told: Told) => void): Promise<boolean>;
  stop(): void;
  /** The file of an export. Rejects where it cannot be made. */
  export(what: ExportKind, ids: readonly string[]): Promise<Blob>;
}

/** What is used of a Worker. */
export type OfficeWorker = Pick<Worker, "postMessage" | "addEventListener" | "terminate">;

const openWorker = (): OfficeWorker =>
  new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "office" });

interface Waiting<T> {
  readonly resolve: (value: T) => void;
  readonly reject: (error: Error) => void;
}

/** The helper in a worker of its own, started with the first work; one that broke is started anew with the next. */
export function helperInWorker(open: () => OfficeWorker = openWorker): Helper {
  let worker: OfficeWorker | null = null;
  let tellTo: (told: Told) => void = () => undefined;
  let taking: Waiting<boolean> | null = null;
  const exporting: Waiting<Blob>[] = [];

  const failed = (of: "take" | "export", error: Error): void => {
    if (of === "export") {
      exporting.shift()?.reject(error);
      return;
    }
    taking?.reject(error);
    taking = null;
  };

  const told = (message: FromOffice): void => {
    switch (message.kind) {
      case "told":
        tellTo(message.told);
        return;
      case "taken":
        taking?.resolve(message.stopped);
        taking = null;
        return;
      case "exported":
        exporting.shift()?.resolve(message.file);
        return;
      case "failed":
        failed(message.of, new Error(message.reason));
        return;
    }
  };

  const start = (): OfficeWorker => {
    const started = open();
    started.addEventListener("message", ({ data }: MessageEvent<FromOffice>) => told(data));
    started.addEventListener("error", () => {
      started.terminate();
      worker = null;
      const broke = new Error("the office's worker broke");
      failed("take", broke);
      while (exporting.length > 0) failed("export", broke);
    });
    return started;
  };

  const post = (message: ToOffice): void => {
    worker ??= start();
    worker.postMessage(message);
  };

  return {
    take: (files, tell) =>
      new Promise((resolve, reject) => {
        tellTo = tell;
        taking = { resolve, reject };
        post({ kind: "take", files });
      }),
    stop: () => post({ kind: "stop" }),
    export: (what, ids) =>
      new Promise((resolve, reject) => {
        exporting.push({ resolve, reject });
        post({ kind: "export", what, ids });
      }),
  };
}
