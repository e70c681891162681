/** Said where figures are asked for and nobody would hear them. */
export const DEAF = "Key words are not heard now: say it as a phrase, or type it.";

/** "Not listening" was just said, and is not all of it. */
export const RESTS = "Key words are still heard: mark wakes it.";

/** Shown where the word that wakes would not be heard. */
export const RESTS_DEAF = "Key words have stopped, and nothing would wake the recogniser: tap to listen.";
