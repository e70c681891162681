import { existsSync, readFileSync } from "node:fs";
import { mkdir, mkdtemp, rename, rm, writeFile } from "node:fs/promises";
import { join, resolve } from "node:path";

const { version } = JSON.parse(readFileSync("node_modules/@sparticuz/chromium/package.json", "utf8"));
const FOLDER = resolve(`node_modules/.cache/burnerside-browser-${version}`);

/** The package's own looks for its fonts where we do not unpack them. */
const FONTS = `<?xml version="1.0"?>
<fontconfig><dir>${join(FOLDER, "fonts/fonts")}</dir><cachedir>${join(FOLDER, "fonts-cache")}</cachedir></fontconfig>
`;

/**
 * Unpacks the headless Chromium of the npm package @sparticuz/chromium, once, into this project's own cache, with the
 * libraries it brings (NSS and Expat, which a bare Debian lacks). What it cannot do: show a window, speak.
 */
export async function unpackBrowser() {
  if (!existsSync(FOLDER)) await unpackInto(FOLDER);
  return {
    executablePath: join(FOLDER, "chromium"),
    args: [],
    env: { LD_LIBRARY_PATH: join(FOLDER, "al2023/lib"), FONTCONFIG_PATH: join(FOLDER, "fonts") },
  };
}

/**
 * The package unpacks into the system's folder for temporary files, which others may write to, and takes a half-written
 * file for a whole one: so it is pointed at a folder of its own, which takes its name only when all is there.
 */
async function unpackInto(folder: string): Promise<void> {
  await mkdir(join(folder, ".."), { recursive: true });
  const half = await mkdtemp(`${folder}-`);
  const { default: chromium } = await import("@sparticuz/chromium");
  const { TMPDIR, AWS_EXECUTION_ENV } = process.env;
  // The second asks for the libraries as well, which the package otherwise unpacks only where it was made for.
  Object.assign(process.env, { TMPDIR: half, AWS_EXECUTION_ENV: "20.x" });
  try {
    await chromium.executablePath();
    await writeFile(join(half, "fonts/fonts.conf"), FONTS);
    await rename(half, folder);
  } catch (error) {
    // Another process was first: its folder is as good.
    if (!existsSync(folder)) throw error;
  } finally {
    for (const [name, value] of Object.entries({ TMPDIR, AWS_EXECUTION_ENV })) {
      if (value === undefined) delete process.env[name];
      else process.env[name] = value;
    }
    await rm(half, { recursive: true, force: true });
  }
}
