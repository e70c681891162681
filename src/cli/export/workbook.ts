import writeExcelFile from "write-excel-file/node";
import type { WorkbookSheet } from "../../record/export/workbook.ts";

/** A workbook's bytes (Office Open XML, ECMA-376). Rejects where its sheets are larger than one text in memory can be. */
export async function workbookBytes(sheets: readonly WorkbookSheet[]): Promise<Uint8Array> {
  return writeExcelFile([...sheets]).toBuffer();
}
