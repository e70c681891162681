/** The usual cautions, the same wherever they are shown and printed. */
export const CAUTIONS: readonly string[] = [
  "For licensed heating technicians only.",
  "The maker's instructions and local codes prevail over anything said or shown here.",
  "Burnerside advises; it never decides. You read the instruments and you are answerable for the work.",
  "Carbon monoxide kills. If the room CO is high, stop, ventilate, get everybody out and call for help.",
  "Check each reading that was heard against the instrument before you act on it.",
];

/** For who reads the visits of many: nobody here stands before an appliance. */
export const OFFICE_CAUTION =
  "this shows what was said at the appliance, judged by the limits that were typed in. It proves no appliance safe: only a licensed technician on site can. Act on a danger or an open follow-up at once. The maker's instructions and local codes prevail.";
