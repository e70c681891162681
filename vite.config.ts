import { fileURLToPath } from "node:url";
import { constants } from "node:zlib";
import { defineConfig, type Plugin } from "vite";
import { compression, defineAlgorithm } from "vite-plugin-compression2";
import { VitePWA } from "vite-plugin-pwa";
import { PAGE_POLICY } from "./src/cli/policy.ts";
import { aheadPlugin, folderOf } from "./src/cli/vite-ahead.ts";
import { keyWordsPlugin } from "./src/cli/vite-key-words.ts";
import { languagePlugin } from "./src/cli/vite-language.ts";
import { noSchemaPlugin } from "./src/cli/vite-no-schema.ts";
import { unitsPlugin } from "./src/cli/vite-units.ts";
import { zipPlugin } from "./src/cli/vite-zip.ts";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Puts the security policy into the built page; the dev server needs scripts and styles of its own. */
function policyPlugin(): Plugin {
  return {
    name: "burnerside-policy",
    apply: "build",
    transformIndexHtml: () => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: PAGE_POLICY },
        injectTo: "head-prepend",
      },
    ],
  };
}

/** The service worker: the page and its scripts at once, the recogniser and the voice once they are asked for. */
function installed() {
  return VitePWA({
    registerType: "prompt",
    // src/device/installation.ts registers it, once the first screen is up.
    injectRegister: false,
    manifest: {
      id: "./",
      start_url: "./",
      scope: "./",
      name: "Burnerside",
      short_name: "Burnerside",
      description: "Hands-free combustion log for licensed heating technicians.",
      lang: "en-US",
      categories: ["utilities", "productivity"],
      display: "standalone",
      orientation: "any",
      theme_color: "#e4dac4",
      background_color: "#e4dac4",
      icons: [
        { src: "icon.svg", sizes: "any", type: "image/svg+xml" },
        { src: "icon-192.png", sizes: "192x192", type: "image/png" },
        { src: "icon-512.png", sizes: "512x512", type: "image/png" },
        { src: "icon-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
      ],
    },
    strategies: "injectManifest",
    srcDir: at("src/app"),
    filename: "sw.ts",
    injectManifest: {
      globPatterns: ["*.{html,json,svg,png}", "assets/*.{js,css}"],
      dontCacheBustURLsMatching: /\/?assets\//,
      sourcemap: false,
    },
  });
}

/** Compressed files beside the plain ones, which `npm start` serves: small but slow for what every first load needs. */
function compressed() {
  const options = { threshold: 1000, skipIfLargerOrEqual: true, logLevel: "silent" } as const;
  return [
    compression({
      ...options,
      include: /\.(js|css|html|json|svg|webmanifest)$/,
      algorithms: [
        defineAlgorithm("brotliCompress", { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }),
        defineAlgorithm("gzip", { level: 9 }),
      ],
      exclude: /assets\/(ear|voice|pdf)\//,
    }),
    compression({
      ...options,
      include: /assets\/(ear|voice|pdf)\/.*\.(js|wasm|json|ttf)$/,
      algorithms: [
        defineAlgorithm("brotliCompress", { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } }),
        defineAlgorithm("gzip", { level: 6 }),
      ],
    }),
  ];
}

const chunkName = ({ facadeModuleId }: { facadeModuleId: string | null }) =>
  `${folderOf([facadeModuleId])}[name]-[hash].js`;
const placed = {
  entryFileNames: chunkName,
  chunkFileNames: chunkName,
  assetFileNames: ({ originalFileNames }: { originalFileNames: string[] }) =>
    `${folderOf(originalFileNames)}[name]-[hash][extname]`,
};

/** What every visit needs, and is loaded behind the first screen together (src/app/main.tsx). */
const VISIT = [at("src/app/mind.ts"), at("src/app/screens/boiler.tsx")];

/**
 * Names the chunk of the modules that the page needs at once, and of those that it loads behind that: each file costs its
 * headers, and what is packed together packs better.
 */
function loadedTogether() {
  const isFirst = reached((id, modules) => modules.getModuleInfo(id)?.isEntry ?? false);
  const isVisit = reached((id) => VISIT.includes(id));
  return (id: string, modules: ModuleGraph) =>
    isFirst(id, modules) ? "first" : isVisit(id, modules) ? "visit" : null;
}

/** Whether a module is a root, or is imported by one, or by what that imports … */
function reached(isRoot: (id: string, modules: ModuleGraph) => boolean) {
  const known = new Map<string, boolean>();
  const isReached = (id: string, modules: ModuleGraph): boolean => {
    const before = known.get(id);
    if (before !== undefined) return before;
    // In a circle nobody is reached because of himself.
    known.set(id, false);
    const importers = modules.getModuleInfo(id)?.importers ?? [];
    const found = isRoot(id, modules) || importers.some((importer) => isReached(importer, modules));
    known.set(id, found);
    return found;
  };
  return isReached;
}

interface ModuleGraph {
  getModuleInfo(id: string): { isEntry: boolean; importers: readonly string[] } | null;
}

export default defineConfig({
  root: at("src/app"),
  // Relative addresses: the built folder works under any path of a server.
  base: "./",
  // The library's entry is its build for old browsers, wrapped for CommonJS: more to load, and nothing of it can be left out.
  resolve: { alias: { dexie: "dexie/dist/modern/dexie.mjs" } },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [
    languagePlugin(),
    unitsPlugin(),
    keyWordsPlugin(),
    noSchemaPlugin(),
    policyPlugin(),
    installed(),
    aheadPlugin(),
    compressed(),
  ],
  worker: {
    format: "es",
    plugins: () => [zipPlugin(), keyWordsPlugin()],
    rolldownOptions: { output: placed },
  },
  build: {
    outDir: at("dist"),
    emptyOutDir: true,
    target: "es2023",
    // A browser of that age knows it, or does without.
    modulePreload: { polyfill: false },
    // No data: addresses, which the policy does not let in.
    assetsInlineLimit: 0,
    // The worker holds the speech engine and is loaded only to listen; the first load is far smaller.
    chunkSizeWarningLimit: 8000,
    rolldownOptions: {
      // The grammar is compiled by a plugin: that it takes a second is known.
      checks: { bundlerTimings: false },
      output: {
        ...placed,
        codeSplitting: { groups: [{ name: loadedTogether() }] },
      },
    },
  },
  server: { fs: { allow: [at(".")] } },
});
