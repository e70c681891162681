import type { Unsure } from "../meaning/item.ts";
import type { EntryBody } from "./entry.ts";

export const OUT_OF_BOUNDS = "outside what can be measured";

/** The words and confidence, 0 to 1, that an entry comes from. */
export interface Said {
  readonly said: string;
  readonly confidence: number;
}

/** One body to be logged. */
export interface Draft extends Said {
  readonly body: EntryBody;
}

export function unsureBody(
  text: string,
  reason: string,
  candidates: Unsure["candidates"],
  question?: Unsure["question"],
): EntryBody {
  return {
    kind: "unsure",
    unsure: question ? { text, reason, candidates, question } : { text, reason, candidates },
  };
}
