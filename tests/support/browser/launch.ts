import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { type BrowserContext, chromium } from "playwright-core";
import { type FoundBrowser, findBrowser } from "./find.ts";

export interface LaunchOptions {
  /** A WAV file that is heard once as the microphone, from when a page first listens. Permission is given unasked. */
  readonly microphone?: string;
  /** With false, permission for the microphone is refused. */
  readonly allowed?: boolean;
  /** Whether there is a graphics processor, in software; unless told otherwise there is none. */
  readonly graphics?: boolean;
  /** A folder that keeps cookies, IndexedDB and the like, so that a browser can be killed and opened again. */
  readonly profile?: string;
  /** Address of a proxy for everything that is not on the loopback: what leaves the machine can be seen there. */
  readonly proxy?: string;
  /** Else the first that is found. */
  readonly browser?: FoundBrowser;
}

export interface Launched {
  readonly context: BrowserContext;
  readonly browser: FoundBrowser;
  /** Closes in good order. */
  close(): Promise<void>;
  /** Ends all of its processes at once with SIGKILL: no goodbye to any page. */
  kill(): Promise<void>;
}

const NO_GRAPHICS = ["--disable-gpu"];
const GRAPHICS = ["--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--ignore-gpu-blocklist"];

// A test's browser has no business outside: without these it tries to reach its makers' servers at every start.
const QUIET = [
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-quic",
  "--no-first-run",
];

/** Starts a headless browser without its sandbox (which root cannot have): for pages that this project serves itself. */
export async function launchBrowser(options: LaunchOptions = {}): Promise<Launched> {
  const browser = options.browser ?? (await findBrowser());
  const profile = options.profile ?? (await mkdtemp(join(tmpdir(), "burnerside-profile-")));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: browser.executablePath,
    headless: true,
    chromiumSandbox: false,
    args: [
      ...browser.args,
      ...QUIET,
      ...(options.graphics ? GRAPHICS : NO_GRAPHICS),
      ...(options.proxy === undefined ? [] : [`--proxy-server=${options.proxy}`]),
      ...microphoneArgs(options.microphone, options.allowed),
    ],
    env: { ...process.env, ...browser.env },
  });
  const main = await processId(context);
  const tidy = async () => {
    if (options.profile === undefined) await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  };
  return {
    context,
    browser,
    async close() {
      await context.close();
      await tidy();
    },
    async kill() {
      const closed = new Promise((done) => context.once("close", done));
      // It leads a group of its own, as it was started, with what keeps its data, draws its pages and so on.
      process.kill(-main, "SIGKILL");
      await closed;
      await tidy();
    },
  };
}

function microphoneArgs(wav: string | undefined, allowed = true): string[] {
  if (wav === undefined) return [];
  return [
    `--use-fake-ui-for-media-stream${allowed ? "" : "=deny"}`,
    "--use-fake-device-for-media-stream",
    `--use-file-for-fake-audio-capture=${resolve(wav)}%noloop`,
  ];
}

async function processId(context: BrowserContext): Promise<number> {
  const session = await context.browser()?.newBrowserCDPSession();
  const { processInfo = [] } = (await session?.send("SystemInfo.getProcessInfo")) ?? {};
  const main = processInfo.find(({ type }) => type === "browser");
  if (!main) throw new Error("Expected the browser's own process, found none.");
  return main.id;
}
