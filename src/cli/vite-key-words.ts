import type { Plugin } from "vite";

const LIBRARY = "/@tensorflow-models/speech-commands/";
const NONE = "\0burnerside:none-of-node";

/**
 * The key-word library reads files where it runs in Node, and imports what it needs for that everywhere. In a browser it is never asked
 * to: there it gets a stand-in that says so.
 */
export function keyWordsPlugin(): Plugin {
  return {
    name: "burnerside-key-words",
    enforce: "pre",
    resolveId(source, importer) {
      return importer?.includes(LIBRARY) && (source === "util" || source === "fs") ? NONE : null;
    },
    load(id) {
      if (id !== NONE) return null;
      return `export const promisify = () => { throw new Error("No files are read here."); };
export const readFile = undefined;`;
    },
  };
}
