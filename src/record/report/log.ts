import { type LogWords, WHAT_ALTERED_MEANS, WHAT_IT_PROVES } from "../integrity/words.ts";
import { type Block, fact } from "./parts.ts";

/** Whether the log is whole, altered or unsigned, what that stands on, and what it means and does not prove. */
export function logBlocks({ verdict, sentences }: LogWords): Block[] {
  return [
    { kind: "facts", name: "", rows: [fact("The log is", verdict)] },
    { kind: "list", name: "", items: sentences },
    { kind: "text", text: verdict === "altered" ? WHAT_ALTERED_MEANS : WHAT_IT_PROVES },
  ];
}

/** What stands above a record whose log is altered; "" above every other. */
export function alteredNotice({ verdict, sentences: [first = "", ...more] }: LogWords): string {
  if (verdict !== "altered") return "";
  return `Altered: the log of this visit was changed afterwards. ${first}${more.length > 0 ? ` ${SEE}` : ""}`;
}

const SEE = "There is more: see “Log”.";
