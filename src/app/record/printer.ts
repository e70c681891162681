import { coveredByAll } from "../../record/report/family.ts";
import { recordPdf } from "../../record/report/pdf.ts";
import type { Printer } from "./records.ts";

/** Loads what a PDF file is made with: most of two megabytes, that only this needs. */
export async function loadPrinter(): Promise<Printer> {
  const { fetchFonts, makePdf } = await import("../../device/pdf/browser.ts");
  const fonts = await fetchFonts();
  const covers = coveredByAll(Object.values(fonts).map(({ bytes }) => bytes));
  return (report) => makePdf(recordPdf(report, covers), fonts);
}
