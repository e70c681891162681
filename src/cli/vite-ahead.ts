import { dirname } from "node:path";
import type { Plugin } from "vite";

/** What is not fetched with the page but when it is first used, or ahead of that: each in a folder of its own. */
const SETS = {
  ear: "assets/ear/",
  voice: "assets/voice/",
  pdf: "assets/pdf/",
  office: "assets/office/",
} as const;

/** Which files of the build belong to the recogniser, to the packaged voice, to the PDF maker and to the office page, by where they were made from. */
const SOURCES: readonly (readonly [RegExp, keyof typeof SETS])[] = [
  [
    /device\/(ears\/offline|spotter|clips\/opus)|app\/key-words\/create|virtual:language\/ear|grammars\/en\/(acoustic|spotter|reading)|tfjs-backend-wasm/,
    "ear",
  ],
  [/device\/voice\/worker|flite/, "voice"],
  [/device\/pdf|pdfmake|dejavu-fonts/, "pdf"],
  [/app\/office\/office\.worker/, "office"],
];

/** The folder of a file that stands for a module or was made from files; of what several share, that of the page. */
export function folderOf(origins: readonly (string | null)[]): string {
  const set = SOURCES.find(([from]) => origins.some((id) => id !== null && from.test(id)))?.[1];
  return set ? SETS[set] : "assets/";
}

/** Writes `ahead.json`: the files of each set with their size in bytes, for whoever fetches them ahead. */
export function aheadPlugin(): Plugin {
  return {
    name: "burnerside-ahead",
    apply: "build",
    enforce: "post",
    generateBundle(_, bundle) {
      const page = Object.values(bundle).flatMap((file) =>
        file.type === "chunk" && file.isEntry ? [file.fileName, ...file.imports] : [],
      );
      const astray = page.filter((file) => folderOf([]) !== `${dirname(file)}/`);
      // The first page would not be kept for a start without a network.
      if (astray.length > 0) this.error(`the page itself needs ${astray.join(", ")}`);
      const list = Object.entries(SETS).map(([set, folder]) => {
        const files = Object.values(bundle)
          .filter(({ fileName }) => fileName.startsWith(folder))
          .map((file) => ({
            file: file.fileName,
            bytes: Buffer.byteLength(file.type === "chunk" ? file.code : file.source),
          }));
        return [set, files.sort((a, b) => (a.file < b.file ? -1 : 1))];
      });
      this.emitFile({
        type: "asset",
        fileName: "ahead.json",
        source: JSON.stringify(Object.fromEntries(list)),
      });
    },
  };
}
