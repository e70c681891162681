import { logLine, logWords } from "../../record/integrity/words.ts";
import type { Signed } from "../safekeeping/signing.ts";

/** What whoever hands a bundle over has to know of its log; null where it is as it should be. */
export function logNotice({ visit, finding, trouble }: Signed): string | null {
  if (finding === null || finding.kind === "altered") return logLine(logWords(visit, { finding, trouble }));
  return trouble === null ? null : `It is not signed: ${trouble}.`;
}
