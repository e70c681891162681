import { epochMs, isoTime } from "../../measure/instant.ts";
import { isZone, zoneFormats } from "../../measure/zone.ts";

const offsets = zoneFormats("en-US", { timeZoneName: "longOffset" });

/** ISO 8601 in UTC with milliseconds, whatever offset it was written with. */
export function utcTime(at: string): string {
  return isoTime(epochMs(at));
}

/** ISO 8601 with the offset that an IANA zone had then: 2026-11-25T10:00:00.000+01:00. Null where the zone is not known. */
export function localTime(at: string, zone: string | null): string | null {
  const offset = zone === null ? null : offsetAt(at, zone);
  if (offset === null) return null;
  const [sign = "+", hours = "0", minutes = "0"] = offset;
  const ms = (sign === "-" ? -1 : 1) * (Number(hours) * 60 + Number(minutes)) * 60_000;
  return isoTime(epochMs(at) + ms).replace("Z", `${sign}${hours}:${minutes}`);
}

/** Sign, hours and minutes; null for a zone that is none, and for the seconds that offsets had before standard time. */
function offsetAt(at: string, zone: string): readonly string[] | null {
  if (!isZone(zone)) return null;
  const name = offsets(zone)
    .formatToParts(new Date(at))
    .find(({ type }) => type === "timeZoneName")?.value;
  if (name === "GMT" || name === "UTC") return ["+", "00", "00"];
  const found = /^GMT([+\-−])(\d\d):(\d\d)$/.exec(name ?? "");
  if (!found) return null;
  const [, sign = "+", hours = "", minutes = ""] = found;
  return [sign === "+" ? "+" : "-", hours, minutes];
}
