import normal from "dejavu-fonts-ttf/ttf/DejaVuSerifCondensed.ttf?url&no-inline";
import bold from "dejavu-fonts-ttf/ttf/DejaVuSerifCondensed-Bold.ttf?url&no-inline";
import italics from "dejavu-fonts-ttf/ttf/DejaVuSerifCondensed-Italic.ttf?url&no-inline";
import type { FontFile, FontFiles } from "./make.ts";

/**
 * Fetches the fonts from the app's own origin.
 * @throws (rejects) naming the file that could not be fetched
 */
export async function fetchFonts(): Promise<FontFiles> {
  const [plain, heavy, slanted] = await Promise.all([
    fetched("normal.ttf", normal),
    fetched("bold.ttf", bold),
    fetched("italics.ttf", italics),
  ]);
  return { normal: plain, bold: heavy, italics: slanted };
}

async function fetched(name: string, address: string): Promise<FontFile> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: status ${response.status}`);
  return { name, bytes: new Uint8Array(await response.arrayBuffer()) };
}
