import type { Warning } from "../../judge/judgement.ts";

/**
 * How grave a warning is, in the signal words of ANSI Z535.4 (from memory): danger will kill, a warning could, caution is of
 * lesser harm (here: work that has to be done again), a notice is of no harm.
 */
export type SignalWord = "danger" | "warning" | "caution" | "notice";

const WORDS: Readonly<Record<Warning["code"], SignalWord>> = {
  "gas-smell": "danger",
  "co-alarm": "danger",
  "ambient-co-evacuate": "danger",
  "ambient-co-high": "warning",
  "ambient-co-raised": "warning",
  "flue-co-air-free-over-400": "warning",
  "flue-co-over-limit": "warning",
  "co-over-guidance": "warning",
  "rich-and-rising": "warning",
  "gas-pressure-out": "warning",
  "o2-co2-disagree": "caution",
  "wrong-firing": "caution",
  "low-before-high": "caution",
  "gas-pressure-not-read": "caution",
  "moved-wrong-way": "caution",
  "no-response": "caution",
  "no-progress": "caution",
  "wrong-screw": "caution",
  "step-too-large": "caution",
  "read-too-early": "notice",
  "left-unproved": "warning",
  "left-open": "warning",
};

const GRAVEST: readonly SignalWord[] = ["danger", "warning", "caution", "notice"];

/** The gravest word of several warnings; null where there are none. */
export function signalWordOf(warnings: readonly Pick<Warning, "code">[]): SignalWord | null {
  return GRAVEST.find((word) => warnings.some(({ code }) => WORDS[code] === word)) ?? null;
}
