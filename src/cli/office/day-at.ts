/** Formats by zone: making one takes longer than a thousand uses of it. */
const formats = new Map<string, Intl.DateTimeFormat>();

/** The day of a time (ISO 8601) in an IANA zone, as YYYY-MM-DD; in UTC where the zone is null or none that is known. */
export function dayAt(at: string, zone: string | null): string {
  const name = zone ?? "UTC";
  const format = formats.get(name) ?? formatOf(name);
  formats.set(name, format);
  // Swedish writes it so.
  return format.format(new Date(at));
}

function formatOf(timeZone: string): Intl.DateTimeFormat {
  try {
    return new Intl.DateTimeFormat("sv-SE", { timeZone });
  } catch {
    return new Intl.DateTimeFormat("sv-SE", { timeZone: "UTC" });
  }
}
