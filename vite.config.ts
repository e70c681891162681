import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";
import { languagePlugin } from "./src/cli/vite-language.ts";
import { sphinxPlugin } from "./src/device/ears/offline/vite-plugin.ts";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Nothing but files of the app's own origin; WebAssembly may be compiled, text may not become script. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  // Kept sound is played from memory.
  "media-src blob:",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Puts the security policy into the built page; the dev server needs scripts and styles of its own. */
function policyPlugin(): Plugin {
  return {
    name: "burnerside-policy",
    apply: "build",
    transformIndexHtml: () => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: POLICY },
        injectTo: "head-prepend",
      },
    ],
  };
}

export default defineConfig({
  root: at("src/app"),
  // Relative addresses: the built folder works under any path of a server.
  base: "./",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [languagePlugin(), sphinxPlugin(), policyPlugin()],
  worker: { format: "es", plugins: () => [sphinxPlugin()] },
  build: {
    outDir: at("dist"),
    emptyOutDir: true,
    target: "es2023",
    // No data: addresses, which the policy does not let in.
    assetsInlineLimit: 0,
    // The worker holds the speech engine and is loaded only to listen; the first load is far smaller.
    chunkSizeWarningLimit: 8000,
  },
  server: { fs: { allow: [at(".")] } },
  preview: { strictPort: true },
});
