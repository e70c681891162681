import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { compileLanguage, compileStart } from "../meaning/compile.ts";
import { foldLanguage } from "../meaning/folded.ts";
import type { EarLanguage, StartLanguage } from "../meaning/network.ts";
import { packLanguage } from "../meaning/pack.ts";
import type { PackedLanguage } from "../meaning/packed.ts";
import { readLanguageFolder } from "./language.ts";

const FOLDER = fileURLToPath(new URL("../../grammars/en", import.meta.url));

type Files = Readonly<Record<string, string>>;

/** What each module holds: the parser's part is needed for every visit, the ear's only to listen, the start's on its page. */
const MODULES: Readonly<Record<string, (files: Files) => PackedLanguage | EarLanguage | StartLanguage>> = {
  "virtual:language/parser": (files) => packLanguage(foldLanguage(compileLanguage(files))),
  "virtual:language/ear": (files) => {
    const { tag, utterance, lexicon, hints } = compileLanguage(files);
    return { tag, utterance, lexicon, hints };
  },
  "virtual:language/start": compileStart,
};

/** Compiles grammars/en at build time into the modules `virtual:language/…`; a fault in a grammar stops the build. */
export function languagePlugin(): Plugin {
  return {
    name: "burnerside-language",
    resolveId: (id) => (id in MODULES ? `\0${id}` : null),
    load(id) {
      const part = MODULES[id.slice(1)];
      if (!id.startsWith("\0") || !part) return null;
      const files = readLanguageFolder();
      for (const name of Object.keys(files)) this.addWatchFile(`${FOLDER}/${name}`);
      // As a string for JSON.parse: engines read it several times faster than the same object as script.
      const json = JSON.stringify(part(files));
      return `export default JSON.parse(${JSON.stringify(json)});`;
    },
  };
}
