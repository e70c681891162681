import writeExcelFile from "write-excel-file/node";
import type { WorkbookSheet } from "../../record/export/workbook.ts";

/**
 * A workbook's bytes (Office Open XML, ECMA-376). Rejects where it is too large: the writer makes each sheet as one text,
 * which can only be so long.
 */
export async function workbookBytes(sheets: readonly WorkbookSheet[]): Promise<Uint8Array> {
  try {
    return await writeExcelFile([...sheets]).toBuffer();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new Error("the workbook is too large; export fewer visits, or a CSV table", { cause: error });
  }
}
