/** The word that wakes the phrase recogniser. */
export const WAKE_WORD = "mark";
