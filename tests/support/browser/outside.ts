import { createServer } from "node:http";

/** All that a browser tries to reach beyond the loopback, from whatever page or worker. */
export interface Outside {
  /** For the browser. */
  readonly proxy: string;
  /** Addresses, or host and port where it is to be a tunnel, in order. */
  readonly asked: readonly string[];
  close(): Promise<void>;
}

/** What Chromium asks its makers by itself: accounts, names of form fields, components. No page can be behind it: its policy lets none. */
const ITS_OWN = /^([\w-]+\.)*(google|googleapis|gstatic|gvt1|googleusercontent)\.com$/;

/** A proxy that writes down what it is asked for and lets nothing through. */
export async function watchOutside(): Promise<Outside> {
  const asked: string[] = [];
  const write = (address: string, host: string) => {
    if (!ITS_OWN.test(host)) asked.push(address);
  };
  const server = createServer(({ url = "" }, response) => {
    write(url, URL.canParse(url) ? new URL(url).hostname : url);
    response.writeHead(502).end();
  });
  server.on("connect", ({ url = "" }, socket) => {
    write(url, url.replace(/:\d+$/, ""));
    socket.end("HTTP/1.1 502 Bad Gateway\r\n\r\n");
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  const address = server.address();
  if (typeof address !== "object" || address === null) throw new Error("Expected a port, found none.");
  return {
    proxy: `http://127.0.0.1:${address.port}`,
    asked,
    close: () =>
      new Promise((closed) => {
        server.close(() => closed());
        server.closeAllConnections();
      }),
  };
}
