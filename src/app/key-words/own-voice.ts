import type { KeyWord } from "../../device/spotter/words.ts";

/** What is known of the app's own voice. */
export interface OwnVoice {
  /** Whether it sounds where the microphone hears it. */
  readonly speaking: boolean;
  /** When it last ended, milliseconds of the windows' clock. */
  readonly endedAt: number;
  /** The words of what sounded last, in small letters. */
  readonly words: ReadonlySet<string>;
}

/** They take nothing in that was measured: they may be said over the voice. */
const OVER_VOICE: ReadonlySet<KeyWord> = new Set(["stop", "again", "yes", "no"]);

/** Nobody has said a word so soon after the voice: what is heard is its end, ms. */
const ECHO_MS = 400;
/** A window holds the last second, and a room rings on: so long a word may be the voice's own, ms. Our own caution. */
const WINDOW_MS = 1300;

/** Whether a word that was heard at this time is the person's, for all that is known. Never a figure over the voice. */
export function isPersons(word: KeyWord, at: number, { speaking, endedAt, words }: OwnVoice): boolean {
  if (speaking || at - endedAt < ECHO_MS) return OVER_VOICE.has(word) && !words.has(word);
  return at - endedAt >= WINDOW_MS || !words.has(word);
}
