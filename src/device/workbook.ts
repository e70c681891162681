import type { WorkbookSheet } from "../record/export/workbook.ts";
import { ownScript } from "./own-script.ts";
import workerUrl from "./workbook.worker.ts?worker&url";

/** To the worker: the sheets. From it: the file's bytes, or why there is none. */
export type WorkbookRequest = readonly WorkbookSheet[];
export type WorkbookReply =
  | { readonly ok: true; readonly bytes: ArrayBuffer }
  | { readonly ok: false; readonly reason: string };

/** A workbook's bytes (Office Open XML, ECMA-376), made in a worker of its own. Rejects where it cannot be made. */
export async function workbookBytes(sheets: WorkbookRequest): Promise<Uint8Array> {
  const worker = new Worker(ownScript(workerUrl), { type: "module" });
  try {
    const reply = await new Promise<WorkbookReply>((resolve, reject) => {
      worker.addEventListener("message", ({ data }: MessageEvent<WorkbookReply>) => resolve(data));
      worker.addEventListener("error", () => reject(new Error("The workbook's writer could not be started")));
      worker.postMessage(sheets);
    });
    if (!reply.ok) throw new Error(`The workbook could not be made: ${reply.reason}`);
    return new Uint8Array(reply.bytes);
  } finally {
    worker.terminate();
  }
}
