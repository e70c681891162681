import { NOT_LISTENING } from "../../answer/effect.ts";
import type { EarState } from "../sound/listening.ts";

/** The answer as it stands on the screen; `told` came of it since. That nobody listens is over once somebody does. */
export function answerNow(answer: string, told: string | null, ear: EarState["kind"]): string {
  if (told !== null) return told;
  return ear === "listening" ? answer.replace(NOT_LISTENING, "").trim() : answer;
}
