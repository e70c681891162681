import { download } from "../../device/files.ts";
import { canShareFiles, shareFile } from "../../device/share.ts";
import { loadPrinter } from "./printer.ts";
import { Records, type RecordsWorld } from "./records.ts";

type Rim = "printer" | "save" | "canShare" | "share";

/** Records, loaded with the first that is opened. */
export function makeRecords(world: Omit<RecordsWorld, Rim>): Records {
  return new Records({
    ...world,
    printer: loadPrinter,
    save: ({ name, data, type }) => download(name, data, type),
    canShare: () => canShareFiles(),
    share: shareFile,
  });
}
