import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { answersFrom, listening } from "../../../src/cli/serve.ts";

export interface Served {
  /** Ends in a slash. */
  readonly url: string;
  /** Method and path of every request that came, in order: of pages, workers and service workers. */
  readonly asked: readonly string[];
  /** What the app's security policy refused, as the browser reports it, of pages and workers. Empty it to have it pass. */
  readonly refused: string[];
  close(): Promise<void>;
}

const POLICY = "Content-Security-Policy";
/** Where the browser reports to: no file of the app. */
const REPORTS = "/refused-by-policy";

/**
 * Serves the built app (`dist`, or another folder) on the loopback, as `npm start` does, on a free port unless told which.
 * Throws where it is not built.
 */
export async function serveApp(folder = "dist", port = 0): Promise<Served> {
  if (!existsSync(resolve(folder, "index.html"))) {
    throw new Error(`Expected the built app in ${folder}, found none: run npx vite build first.`);
  }
  const answers = answersFrom(folder);
  const asked: string[] = [];
  const refused: string[] = [];
  const server = await listening(
    (request, response) => {
      if (request.url === REPORTS) {
        request.setEncoding("utf8").on("data", (report: string) => refused.push(report));
        response.writeHead(204).end();
        return;
      }
      asked.push(`${request.method} ${request.url}`);
      const { setHeader } = response;
      response.setHeader = (name, value) =>
        setHeader.call(response, name, name === POLICY ? `${value}; report-uri ${REPORTS}` : value);
      answers(request, response);
    },
    port,
    "127.0.0.1",
  );
  const address = server.address();
  if (typeof address !== "object" || address === null) throw new Error("Expected a port, found none.");
  return {
    url: `http://127.0.0.1:${address.port}/`,
    asked,
    refused,
    close: () =>
      new Promise((closed, failed) => {
        server.close((error) => (error ? failed(error) : closed()));
        server.closeAllConnections();
      }),
  };
}
