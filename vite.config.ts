import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { languagePlugin } from "./src/cli/vite-language.ts";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: at("src/app"),
  // Relative addresses: the built folder works under any path of a server.
  base: "./",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [languagePlugin()],
  worker: { format: "es", plugins: () => [languagePlugin()] },
  build: {
    outDir: at("dist"),
    emptyOutDir: true,
    target: "es2023",
    // No data: addresses: the page's security policy lets nothing in but files of its own origin.
    assetsInlineLimit: 0,
  },
  server: { fs: { allow: [at(".")] } },
  preview: { strictPort: true },
});
