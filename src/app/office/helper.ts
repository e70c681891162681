import { ownScript } from "../../device/own-script.ts";
import type { ExportKind } from "./export-kinds.ts";
import type { FromOffice, ToOffice } from "./messages.ts";
import workerUrl from "./office.worker.ts?worker&url";
import { NOTHING_YET, type Progress, sumOf, type Told } from "./take-in.ts";

/** What does the long work of the office off the page's thread. */
export interface Helper {
  /** Takes in files; resolves to whether it was stopped. One at a time. Rejects where storing fails. */
  take(files: readonly File[], tell: (told: Told) => void): Promise<boolean>;
  stop(): void;
  /** Judges visits anew from their texts. Rejects where storing fails. */
  judgeAnew(ids: readonly string[]): Promise<void>;
  /** The file of an export. Rejects where it cannot be made. */
  export(what: ExportKind, ids: readonly string[]): Promise<Blob>;
}

/** What is used of a Worker. */
export type OfficeWorker = Pick<Worker, "postMessage" | "addEventListener" | "terminate">;

const openWorker = (): OfficeWorker => new Worker(ownScript(workerUrl), { type: "module", name: "office" });

/** Fewer files than so many are not worth another worker's start. */
const FILES_EACH = 30;

/** As many at most, however many cores there are: one database takes it all in. */
const MOST_WORKERS = 4;

/** The work in workers, which end with it: files are shared out to as many as there are cores. */
export function helperInWorkers(cores: number, open: () => OfficeWorker = openWorker): Helper {
  let taking: readonly OfficeWorker[] = [];
  return {
    async take(files, tell) {
      const count = Math.max(1, Math.min(cores, MOST_WORKERS, Math.floor(files.length / FILES_EACH)));
      const workers = Array.from({ length: count }, open);
      taking = workers;
      const progress = workers.map((): Progress => NOTHING_YET);
      const total = totalOf(files);
      try {
        const stopped = await Promise.all(
          workers.map((worker, place) => {
            const share = files.filter((_, number) => number % count === place);
            return ask(worker, { kind: "take", files: share }, (told) => {
              progress[place] = told.progress;
              tell({ ...told, progress: { ...sumOf(progress), ...total } });
            });
          }),
        );
        return stopped.some((answer) => answer.kind === "taken" && answer.stopped);
      } finally {
        taking = [];
        for (const worker of workers) worker.terminate();
      }
    },
    stop() {
      const message: ToOffice = { kind: "stop" };
      for (const worker of taking) worker.postMessage(message);
    },
    async judgeAnew(ids) {
      await alone({ kind: "judge-anew", ids });
    },
    async export(what, ids) {
      const answer = await alone({ kind: "export", what, ids });
      if (answer.kind !== "exported") throw new Error("the office's worker made no file");
      return answer.file;
    },
  };

  /** One work in a worker of its own. */
  async function alone(message: ToOffice): Promise<Answer> {
    const worker = open();
    try {
      return await ask(worker, message, () => undefined);
    } finally {
      worker.terminate();
    }
  }
}

/** What all files together are, before any worker has told of its own. */
function totalOf(files: readonly File[]): Pick<Progress, "of" | "ofBytes"> {
  return { of: files.length, ofBytes: files.reduce((sum, { size }) => sum + size, 0) };
}

type Answer = Exclude<FromOffice, { readonly kind: "told" | "failed" }>;

/** Asks a worker for one work, and hears what it tells on the way. Rejects where it fails or breaks. */
function ask(worker: OfficeWorker, message: ToOffice, tell: (told: Told) => void): Promise<Answer> {
  return new Promise((resolve, reject) => {
    worker.addEventListener("message", ({ data }: MessageEvent<FromOffice>) => {
      switch (data.kind) {
        case "told":
          tell(data.told);
          return;
        case "failed":
          reject(new Error(data.reason));
          return;
        default:
          resolve(data);
      }
    });
    worker.addEventListener("error", () => reject(new Error("the office's worker broke")));
    worker.postMessage(message);
  });
}
