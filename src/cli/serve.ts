import { createServer, type Server } from "node:http";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import sirv from "sirv";

/** The port of `npm start`: the notebook belongs to the address, so another port would be another notebook. */
const PORT = 4173;

/**
 * Serves a built folder on the loopback, compressed where a compressed file lies beside: what has a hash in its name for
 * good, all else asked for anew each time. Rejects where the port is taken; 0 takes any that is free.
 */
export function serveFolder(folder: string, port: number, host: string): Promise<Server> {
  const files = sirv(resolve(folder), {
    brotli: true,
    gzip: true,
    etag: true,
    setHeaders: (response, path) => {
      const hashed = path.startsWith("/assets/");
      response.setHeader("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
      response.setHeader("X-Content-Type-Options", "nosniff");
    },
  });
  const server = createServer((request, response) => files(request, response));
  return new Promise((started, failed) => {
    server.once("error", failed);
    server.listen(port, host, () => started(server));
  });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    await serveFolder("dist", PORT, "localhost");
    process.stdout.write(`Burnerside: http://localhost:${PORT}/ (Ctrl+C ends it)\n`);
  } catch (error) {
    process.stderr.write(`Port ${PORT} cannot be had: ${error instanceof Error ? error.message : error}\n`);
    process.exitCode = 1;
  }
}
