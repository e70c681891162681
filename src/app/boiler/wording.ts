/** Said of a phrase that is held. */
export const NOT_SAVED = "Not saved. Look at the screen.";

/** Said where the clock was set while a settle time runs. A device that slept looks the same: it waits once more at most. */
export const CLOCK_SET = "The clock of this device was changed. Wait until I say ready.";

/** Why a phrase is held that was said before what it would change could be seen. */
export const UNSEEN =
  "another window has just added to this visit, and this would change what it added; look at the log below, then try again or drop it";
