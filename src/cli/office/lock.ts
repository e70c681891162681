import { createHash } from "node:crypto";
import { rmSync } from "node:fs";
import { realpath } from "node:fs/promises";
import { connect, createServer, type Server } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Holds a folder for this process alone. */
export interface Lock {
  release(): Promise<void>;
}

/**
 * Takes a folder that exists for this process alone; null where another process of this machine has it. It is a name that the
 * process listens on: the system gives it up with the process, however that ends, so that nothing stale is left behind.
 */
export async function lockFolder(folder: string): Promise<Lock | null> {
  const address = addressOf(await realpath(folder));
  const server = (await listen(address)) ?? ((await isStale(address)) ? await listen(address) : null);
  // It keeps nobody from ending.
  server?.unref();
  return server && { release: () => new Promise((done) => void server.close(() => done())) };
}

function addressOf(folder: string): string {
  const name = `burnerside-office-${createHash("sha256").update(folder).digest("hex").slice(0, 32)}`;
  if (process.platform === "linux") return `\0${name}`;
  return process.platform === "win32" ? `\\\\.\\pipe\\${name}` : join(tmpdir(), name);
}

function listen(address: string): Promise<Server | null> {
  return new Promise((done, failed) => {
    const server = createServer((socket) => socket.destroy());
    server.once("error", (error: NodeJS.ErrnoException) =>
      error.code === "EADDRINUSE" ? done(null) : failed(error),
    );
    server.listen(address, () => done(server));
  });
}

/** Where such a name is a file, it stays when its process was killed; nobody answers there then. */
async function isStale(address: string): Promise<boolean> {
  if (process.platform === "linux" || process.platform === "win32") return false;
  const answers = await new Promise<boolean>((done) => {
    const socket = connect(address, () => done(true));
    socket.once("error", () => done(false));
    socket.once("close", () => socket.destroy());
  });
  if (!answers) rmSync(address, { force: true });
  return !answers;
}
