/** By the type's number (pg_type.oid, fixed since PostgreSQL 7): how a value's text becomes ours. All else is as the drivers have it. */
export const PARSERS: Readonly<Record<number, (text: string) => unknown>> = {
  /** date: as it stands, YYYY-MM-DD. */
  1082: (text) => text,
  /** timestamptz: ISO 8601 in UTC. */
  1184: (text) => isoOf(text),
  /** bigint and numeric: counts and sums, far below 2^53. */
  20: Number,
  1700: Number,
};

/** "2026-11-25 08:58:00.5+00" as ISO 8601. */
function isoOf(text: string): string {
  const ms = Date.parse(text.replace(" ", "T").replace(/([+-]\d\d)$/, "$1:00"));
  return Number.isNaN(ms) ? text : new Date(ms).toISOString();
}
