import type { Unhanded } from "../../device/notebook/notebook.ts";
import { DAY_MS, epochMs, isoTime } from "../../measure/instant.ts";

/** So many days may entries be on this device only before that is told: our own caution, without source. */
export const REMIND_AFTER_DAYS = 14;

/** For so many days it can be put off. */
export const PUT_OFF_DAYS = 7;

/** Visits that are on this device only. */
export interface Reminder {
  readonly count: number;
  /** When the first entry was made that nothing but this device has, ISO 8601. */
  readonly since: string;
}

/** What to remind of: null where nothing is on this device only for too long, or where it is put off. Times are ISO 8601. */
export function reminderOf(
  unhanded: readonly Unhanded[],
  now: string,
  putOffUntil: string | null,
): Reminder | null {
  const [since, ...later] = unhanded.map((one) => one.since).sort((a, b) => epochMs(a) - epochMs(b));
  if (since === undefined || epochMs(now) - epochMs(since) <= REMIND_AFTER_DAYS * DAY_MS) return null;
  return isPutOff(now, putOffUntil) ? null : { count: later.length + 1, since };
}

/** When a reminder that is put off now comes back. */
export function putOffFrom(now: string): string {
  return isoTime(epochMs(now) + PUT_OFF_DAYS * DAY_MS);
}

/** Not for longer than it can be put off: a clock that was wrong must not silence it for years. */
function isPutOff(now: string, until: string | null): boolean {
  if (until === null) return false;
  const left = epochMs(until) - epochMs(now);
  return left > 0 && left <= PUT_OFF_DAYS * DAY_MS;
}
