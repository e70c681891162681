/** Zones that were asked for, and whether there are such. */
const zones = new Map<string, boolean>();

/** Whether an IANA zone is known here; a file from elsewhere may name any. */
export function isZone(zone: string): boolean {
  const known = zones.get(zone) ?? isMade(zone);
  zones.set(zone, known);
  return known;
}

function isMade(timeZone: string): boolean {
  try {
    return new Intl.DateTimeFormat("en-GB", { timeZone }).format(0) !== "";
  } catch {
    return false;
  }
}

/** The zone that times are told in: UTC where none is given, or one that nobody knows. */
export function knownZone(zone: string | null): string {
  return zone !== null && isZone(zone) ? zone : "UTC";
}

/** Formats of one kind by zone, each made once: making one takes longer than a thousand uses of it. */
export function zoneFormats(
  locale: string,
  options: Intl.DateTimeFormatOptions,
): (zone: string | null) => Intl.DateTimeFormat {
  const formats = new Map<string, Intl.DateTimeFormat>();
  return (zone) => {
    const timeZone = knownZone(zone);
    const format = formats.get(timeZone) ?? new Intl.DateTimeFormat(locale, { ...options, timeZone });
    formats.set(timeZone, format);
    return format;
  };
}

// Swedish writes a day so.
const dayFormat = zoneFormats("sv-SE", {});

/** The day of a time (ISO 8601) in an IANA zone, as YYYY-MM-DD; in UTC where the zone is null or none that is known. */
export function isoDay(at: string, zone: string | null): string {
  return dayFormat(zone).format(new Date(at));
}
