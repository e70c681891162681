import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Builds the page of the key words as the app is built, into a folder of its own; gives the folder. */
export async function buildSpotterPage(): Promise<string> {
  const outDir = await mkdtemp(join(tmpdir(), "burnerside-spotter-"));
  await build({
    configFile: at("../../../../vite.config.ts"),
    root: at("."),
    publicDir: at("../../../../src/app/public"),
    logLevel: "error",
    build: { outDir, emptyOutDir: true },
  });
  return outDir;
}
