import type { Plugin } from "vite";

const PACKER = "/write-excel-file/modules/zip/zipToArrayBuffer.js";

/**
 * The workbook's writer packs large files in workers made of text. No code is made of text here, and a server that sends the
 * app's policy with its files would not let it in. The writer runs in a worker of the app's own (src/device/workbook.ts),
 * where its other way of packing, at once, holds up nobody. Where the library has moved its file, the build stops.
 */
export function zipPlugin(): Plugin {
  const seen = { writer: false, packer: false };
  return {
    name: "burnerside-zip",
    apply: "build",
    enforce: "pre",
    load(id) {
      seen.writer ||= id.includes("/write-excel-file/");
      if (!id.endsWith(PACKER)) return null;
      seen.packer = true;
      return 'import zip from "./zipToArrayBufferSync.js"; export default async (files) => zip(files);';
    },
    buildEnd(error) {
      if (!error && seen.writer && !seen.packer)
        this.error(`Expected the workbook's writer to import ${PACKER}, found none.`);
    },
  };
}
