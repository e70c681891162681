import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { compileLanguage } from "../meaning/compile.ts";
import { readLanguageFolder } from "./language.ts";

const ID = "virtual:language";
const FOLDER = fileURLToPath(new URL("../../grammars/en", import.meta.url));

/** Compiles grammars/en once, at build time, into the module `virtual:language`; a fault in a grammar stops the build. */
export function languagePlugin(): Plugin {
  return {
    name: "burnerside-language",
    resolveId: (id) => (id === ID ? `\0${ID}` : null),
    load(id) {
      if (id !== `\0${ID}`) return null;
      for (const name of Object.keys(readLanguageFolder())) this.addWatchFile(`${FOLDER}/${name}`);
      // As a string for JSON.parse: engines read it several times faster than the same object as script.
      const json = JSON.stringify(compileLanguage(readLanguageFolder()));
      return `export default JSON.parse(${JSON.stringify(json)});`;
    },
  };
}
