import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { compileLanguage, compileStart } from "../meaning/compile.ts";
import type { Language, StartLanguage } from "../meaning/network.ts";

const FOLDER = fileURLToPath(new URL("../../grammars/en/", import.meta.url));

/** The text of each file of the language folder. */
export function readLanguageFolder(folder = FOLDER): Record<string, string> {
  const names = readdirSync(folder).filter((name) => /\.(abnf|dict|txt)$/.test(name));
  return Object.fromEntries(names.map((name) => [name, readFileSync(`${folder}/${name}`, "utf8")]));
}

let compiled: Language | null = null;

/** The language folder, compiled, once a process. Throws GrammarError with file and line of every fault. */
export function loadLanguage(): Language {
  compiled ??= compileLanguage(readLanguageFolder());
  return compiled;
}

/** Compiles the language of the start page. */
export function loadStartLanguage(): StartLanguage {
  return compileStart(readLanguageFolder());
}
