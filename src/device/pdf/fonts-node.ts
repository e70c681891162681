import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import type { FontFile, FontFiles } from "./make.ts";

/** Reads the fonts from the package that ships them. Rejects where it is not installed. */
export async function readFonts(): Promise<FontFiles> {
  const [normal, bold, italics] = await Promise.all([read(""), read("-Bold"), read("-Italic")]);
  return { normal, bold, italics };
}

async function read(style: string): Promise<FontFile> {
  const name = fileURLToPath(import.meta.resolve(`dejavu-fonts-ttf/ttf/DejaVuSerifCondensed${style}.ttf`));
  return { name, bytes: new Uint8Array(await readFile(name)) };
}
