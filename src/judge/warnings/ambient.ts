import { spokenReading } from "../../measure/show.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";

/** Room CO, ppm, at and above which each warning is given; gravest first. */
const LEVELS = [
  // UL 2034: alarms at 70 ppm (60 to 240 minutes); check-values section 5, source S20.
  { ppm: 70, code: "ambient-co-evacuate", what: "Leave now and call for help.", stop: true },
  // 40 CFR 50.8(a)(2): 35 ppm, one-hour average; check-values section 5, source S16.
  { ppm: 35, code: "ambient-co-high", what: "Stop and ventilate.", stop: true },
  // 40 CFR 50.8(a)(1): 9 ppm, eight-hour average; check-values section 5, source S16.
  { ppm: 9, code: "ambient-co-raised", what: "Look for the source.", stop: false },
] as const;

/** Only the gravest level that the last room reading reaches. */
export function ambientCo(s: Situation): Danger | null {
  const last = s.state.readings.findLast(({ reading }) => reading.quantity === "co-ambient");
  if (!last) return null;
  const { value, unit } = last.reading;
  const level = LEVELS.find(({ ppm }) => value >= ppm);
  if (!level || !(level.stop || s.fresh.includes(last))) return null;
  const said = spokenReading("co-ambient", value, unit);
  return {
    code: level.code,
    text: `${said[0]?.toUpperCase()}${said.slice(1)}. ${level.what}`,
    stop: level.stop,
  };
}
