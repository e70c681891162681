import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { serveFolder } from "../../../src/cli/serve.ts";

export interface Served {
  /** Ends in a slash. */
  readonly url: string;
  close(): Promise<void>;
}

/**
 * Serves the built app (`dist`, or another folder) on the loopback, as `npm start` does, on a free port unless told which.
 * Throws where it is not built.
 */
export async function serveApp(folder = "dist", port = 0): Promise<Served> {
  if (!existsSync(resolve(folder, "index.html"))) {
    throw new Error(`Expected the built app in ${folder}, found none: run npx vite build first.`);
  }
  const server = await serveFolder(folder, port, "127.0.0.1");
  const address = server.address();
  if (typeof address !== "object" || address === null) throw new Error("Expected a port, found none.");
  return {
    url: `http://127.0.0.1:${address.port}/`,
    close: () =>
      new Promise((closed, failed) => {
        server.close((error) => (error ? failed(error) : closed()));
        server.closeAllConnections();
      }),
  };
}
