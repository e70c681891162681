import writeExcelFile from "write-excel-file/universal";
import type { WorkbookReply, WorkbookRequest } from "./workbook.ts";

self.addEventListener("message", async ({ data }: MessageEvent<WorkbookRequest>) => {
  const reply = await made(data);
  postMessage(reply, { transfer: reply.ok ? [reply.bytes] : [] });
});

async function made(sheets: WorkbookRequest): Promise<WorkbookReply> {
  try {
    const file = await writeExcelFile([...sheets]).toBlob();
    return { ok: true, bytes: await file.arrayBuffer() };
  } catch (error) {
    return { ok: false, reason: reasonOf(error) };
  }
}

/** The writer makes each sheet as one text, which can only be so long. */
function reasonOf(error: unknown): string {
  if (error instanceof RangeError) return "it is too large; export fewer visits, or a CSV table";
  return error instanceof Error ? error.message : String(error);
}
