import type { Judgement } from "../judge/judgement.ts";
import type { Entry } from "../visit/entry.ts";

/** The tone before an answer: it was logged, something is asked, there is a danger; none where nothing is said. */
export type Earcon = "none" | "heard" | "asking" | "warning";

/** Which tone goes with a reply. A warning outranks a question, and a question what was logged with it. */
export function earconOf({ warnings }: Judgement, question: string, since: readonly Entry[]): Earcon {
  if (warnings.length > 0) return "warning";
  if (question !== "") return "asking";
  return since.length > 0 ? "heard" : "none";
}
