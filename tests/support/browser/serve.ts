import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { preview } from "vite";

export interface Served {
  /** Ends in a slash. */
  readonly url: string;
  close(): Promise<void>;
}

/** Serves the built app (`dist`, or another folder) on a free port of the loopback, as `npm start` does. Throws where it is not built. */
export async function serveApp(folder = "dist"): Promise<Served> {
  if (!existsSync(resolve(folder, "index.html"))) {
    throw new Error(`Expected the built app in ${folder}, found none: run npx vite build first.`);
  }
  const server = await preview({
    configFile: resolve("vite.config.ts"),
    logLevel: "warn",
    build: { outDir: resolve(folder) },
    preview: { host: "127.0.0.1", port: 0, strictPort: false },
  });
  const address = server.httpServer.address();
  if (typeof address !== "object" || address === null) throw new Error("Expected a port, found none.");
  return { url: `http://127.0.0.1:${address.port}/`, close: () => server.close() };
}
