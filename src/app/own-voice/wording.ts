import type { Gain } from "../../device/spotter/profile.ts";
import { capital } from "../../measure/capital.ts";
import type { Ask } from "./plan.ts";
import type { Ending } from "./reading.ts";
import type { Trouble } from "./take.ts";

/** What is said aloud, and whether the tone that marks a take follows it. */
export interface Tell {
  readonly text: string;
  readonly tone: boolean;
}

/** What is said before a try: what was wrong with the last one, what is wanted. A word is said once, in its first round. */
export function tellOf(ask: Ask, trouble: Trouble | null): Tell {
  const wrong = trouble ? `${shortly(trouble)} ` : "";
  switch (ask.kind) {
    case "noise":
      return { text: `${wrong}Say nothing for a few seconds.`, tone: true };
    case "word":
      if (trouble) return { text: `${wrong}${capital(ask.word)}.`, tone: true };
      return { text: ask.first ? `${capital(ask.word)}.` : "", tone: true };
    case "sentence":
      return { text: `${wrong}Read this aloud.`, tone: true };
  }
}

/** The same in one sentence on the screen. */
export function troubleWords(trouble: Trouble, ask: Ask): string {
  const want = ask.kind === "word" ? `say “${ask.word}”` : "read the sentence";
  switch (trouble.kind) {
    case "silence":
      return ask.kind === "noise"
        ? "Nothing comes from the microphone: see that it is not switched off."
        : `Nothing was heard: ${want}, when you are ready.`;
    case "loud":
      return `Too loud: hold the device further away, then ${want}.`;
    case "soft":
      return `Too soft against the noise here: come nearer, then ${want}.`;
    case "early":
      return `That was too early: wait for the tone, then ${want}.`;
    case "more":
      return `More than that was heard: ${want}, and nothing else.`;
    case "short":
      return "That was only a part: read the whole sentence.";
    case "noise":
      return `It has become louder here: wait until it is quieter, then ${want}.`;
    case "wrong":
      return trouble.heard === "stop"
        ? `That sounded like “stop”: ${want}, or say “stop” once more to end.`
        : `That sounded like “${trouble.heard}”: ${want}, as you always do.`;
    case "spoke":
      return "Somebody spoke: say nothing while the room is heard.";
  }
}

function shortly(trouble: Trouble): string {
  switch (trouble.kind) {
    case "silence":
      return "Nothing heard.";
    case "loud":
      return "Too loud.";
    case "soft":
      return "Too soft.";
    case "early":
      return "Too early.";
    case "more":
      return "Only that.";
    case "short":
      return "The whole sentence.";
    case "noise":
      return "Too noisy.";
    case "wrong":
      return "Once more.";
    case "spoke":
      return "Somebody spoke.";
  }
}

export const NOTHING_KEPT = "Nothing was kept.";

/** Why a reading ended before it was through. */
export function endedWords(ending: Ending): string {
  switch (ending.kind) {
    case "cancelled":
      return `Cancelled. ${NOTHING_KEPT}`;
    case "stopped":
      return `Stopped, as you said. ${NOTHING_KEPT}`;
    case "microphone":
      return `${ending.message} ${NOTHING_KEPT}`;
    case "too-noisy":
      return `It is too noisy here to learn a voice: go where it is quieter and start again. ${NOTHING_KEPT}`;
    case "nobody":
      return `Nothing was heard for a minute. ${NOTHING_KEPT}`;
    case "in-vain":
      return `${IN_VAIN[ending.trouble.kind]} ${NOTHING_KEPT}`;
  }
}

const IN_VAIN: Readonly<Record<Trouble["kind"], string>> = {
  silence: "Nothing was heard again and again: see whether this is the right microphone.",
  loud: "It was too loud again and again: hold the device further away and start again.",
  soft: "It was too soft again and again: go where it is quieter, or nearer, and start again.",
  early: "It was too early again and again: wait for the tone each time, and start again.",
  more: "More was heard than the word, again and again: go where nobody else speaks and start again.",
  short: "The sentence was not read to its end: start again.",
  noise: "It has become too noisy here: go where it is quieter and start again.",
  wrong: "Another word was heard again and again: start again.",
  spoke: "Somebody speaks here: go where it is quieter and start again.",
};

/** How much better it got, said as it is. */
export function gainWords({ heldBack, rightBefore, rightAfter }: Gain): string {
  const counts = `of ${heldBack} takes held back, ${rightBefore} were right before and ${rightAfter} are now`;
  if (rightAfter > rightBefore) return `Better: ${counts}.`;
  if (rightAfter === rightBefore) return `No better and no worse: ${counts}.`;
  return `Worse: ${counts}. It is not kept: the words go on being heard as before.`;
}

/** "About 2 minutes left". */
export function leftWords(seconds: number): string {
  if (seconds < 45) return "Less than a minute left";
  const minutes = Math.round(seconds / 60);
  return `About ${Math.max(1, minutes)} ${minutes <= 1 ? "minute" : "minutes"} left`;
}
