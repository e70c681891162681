/** Milliseconds since the epoch of an ISO 8601 time. Pure: the clock itself is read only in src/device. */
export function epochMs(iso: string): number {
  return Date.parse(iso);
}

/** ISO 8601 in UTC with milliseconds. */
export function isoTime(ms: number): string {
  return new Date(ms).toISOString();
}

/** Seconds from one ISO time to a later one. */
export function secondsBetween(from: string, to: string): number {
  return (epochMs(to) - epochMs(from)) / 1000;
}

/** A day of 24 hours, milliseconds. */
export const DAY_MS = 24 * 60 * 60 * 1000;
