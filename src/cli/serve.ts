import { createServer, type RequestListener, type Server } from "node:http";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import sirv from "sirv";
import { build } from "vite";
import { HEADERS } from "./policy.ts";

/** The port of `npm start` without `--port`: the notebook belongs to the address, so another port is another notebook. */
const PORT = 4173;

/**
 * What answers requests from a built folder, compressed where a compressed file lies beside: what has a hash in its name for
 * good, all else asked for anew each time; all with the headers of policy.ts.
 */
export function answersFrom(folder: string): RequestListener {
  const files = sirv(resolve(folder), {
    brotli: true,
    gzip: true,
    etag: true,
    setHeaders: (response, path) => {
      const hashed = path.startsWith("/assets/");
      response.setHeader("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
    },
  });
  return (request, response) => {
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
    files(request, response);
  };
}

/** A server that listens. Rejects where the port is taken; 0 takes any that is free. */
export function listening(answers: RequestListener, port: number, host: string): Promise<Server> {
  const server = createServer(answers);
  return new Promise((started, failed) => {
    server.once("error", failed);
    server.listen(port, host, () => started(server));
  });
}

/** The port that the arguments name, from 1 to 65535; null where they cannot be read. */
export function portOf(args: readonly string[]): number | null {
  if (args.length === 0) return PORT;
  const [flag = "", ...more] = args;
  const given = flag === "--port" ? more : flag.startsWith("--port=") ? [flag.slice(7), ...more] : [];
  const [port = ""] = given;
  return given.length === 1 && /^[1-9]\d{0,4}$/.test(port) && Number(port) <= 65_535 ? Number(port) : null;
}

/** Builds the app and serves it; where the port is taken, that is told before the build. */
async function start(args: readonly string[]): Promise<void> {
  const port = portOf(args);
  if (port === null) {
    process.stderr.write(
      `Expected nothing or --port N (1 to 65535), found "${args.join(" ")}". Usage: npm start -- --port N\n`,
    );
    process.exitCode = 2;
    return;
  }
  const url = `http://localhost:${port}/`;
  try {
    const trial = createServer();
    await new Promise<void>((free, taken) => trial.once("error", taken).listen(port, "localhost", free));
    await new Promise((closed) => trial.close(closed));
  } catch {
    process.stderr.write(`Port ${port} is taken. Is Burnerside running already? Then open ${url}\n`);
    process.exitCode = 1;
    return;
  }
  process.stdout.write("Building Burnerside …\n");
  await build({ configFile: "vite.config.ts", logLevel: "error" });
  await listening(answersFrom("dist"), port, "localhost");
  process.stdout.write(`Burnerside: ${url} (Ctrl+C ends it)\n`);
  if (port !== PORT) process.stdout.write(`Its notebook is another than that of port ${PORT}.\n`);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href)
  await start(process.argv.slice(2));
