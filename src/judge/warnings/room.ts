import { capital } from "../../measure/capital.ts";
import { spokenReading } from "../../measure/show.ts";
import type { Reading } from "../../visit/entry.ts";
import type { ItemBody, LoggedItem } from "../../visit/state.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";
import { takenBack } from "./taken-back.ts";

/** Room CO, ppm, below which a room counts as safe: the lowest level that is warned of. */
export const QUIET = 9;

/** A smell of gas: until a leak check after it is confirmed, or it is struck as misheard. What to do first is common practice, no source. */
export function gasSmell(s: Situation): Danger | null {
  const smelt = lastMark(s, "gas-smell");
  if (!smelt) return null;
  const check = itemsAfter(s, smelt).findLast(
    ({ body }) => body.kind === "check" && body.item === "leak-check",
  );
  if (check?.body.kind === "check" && check.body.done) return null;
  const text = "Gas smell. No flame, no switches. Gas off, ventilate, leave, call the gas emergency line.";
  return { code: "gas-smell", text, stop: true };
}

/** A CO alarm that sounds: until room CO is read after it, and is low, or it is struck as misheard. */
export function coAlarm(s: Situation): Danger | null {
  const sounded = lastMark(s, "co-alarm");
  if (!sounded) return null;
  const quiet = itemsAfter(s, sounded).some((item) => [item.body, ...takenBack(item)].every(isQuiet));
  if (quiet) return null;
  const text =
    "C O alarm. Burner off, ventilate, leave now, call for help. Come back only when the room is safe.";
  return { code: "co-alarm", text, stop: true };
}

function isQuiet(body: ItemBody): boolean {
  return isRoom(body) && body.value < QUIET;
}

/**
 * Room CO, ppm, at and above which each warning is given; gravest first. A level that stops goes only with a new reading.
 */
const LEVELS = [
  // UL 2034: alarms at 70 ppm (60 to 240 minutes); check-values section 5, source S20.
  { ppm: 70, code: "ambient-co-evacuate", what: "Leave now, ventilate, call for help.", stop: true },
  // 40 CFR 50.8(a)(2): 35 ppm, one-hour average; check-values section 5, source S16.
  { ppm: 35, code: "ambient-co-high", what: "Stop and ventilate.", stop: true },
  // 40 CFR 50.8(a)(1): 9 ppm, eight-hour average; check-values section 5, source S16.
  { ppm: QUIET, code: "ambient-co-raised", what: "Look for the source.", stop: false },
] as const;

/** Only the gravest level that the last room reading reaches, or reached before it was mended or struck. */
export function ambientCo(s: Situation): Danger | null {
  const read = s.state.items.filter((item) => isRoom(item.body) || item.history.some(isRoom));
  const standing = read.findLastIndex(({ struckBy, body }) => struckBy === null && isRoom(body));
  const last = read[standing] ?? read.at(-1);
  const reading = last && [...last.history, last.body].findLast(isRoom);
  if (!reading) return null;
  const { unit } = reading;
  const stands = standing < 0 ? 0 : reading.value;
  // What was struck since the last one that stands may have been right.
  const struck = read.slice(Math.max(0, standing)).flatMap(takenBack).filter(isRoom);
  const worst = Math.max(stands, ...struck.map(({ value }) => value));
  const [now, before] = [levelOf(stands), levelOf(worst)];
  if (before?.stop && now?.code !== before.code) {
    const text = `${capital(spokenReading("co-ambient", worst, unit))} was logged. Read room C O again.`;
    return { code: before.code, text, stop: true };
  }
  const fresh = s.fresh.some(({ id }) => id === last.id);
  if (!now || !(now.stop || fresh)) return null;
  return {
    code: now.code,
    text: `${capital(spokenReading("co-ambient", stands, unit))}. ${now.what}`,
    stop: now.stop,
  };
}

function isRoom(body: ItemBody): body is Reading {
  return body.kind === "reading" && body.quantity === "co-ambient";
}

const levelOf = (value: number) => LEVELS.find(({ ppm }) => value >= ppm);

function lastMark({ state }: Situation, mark: string): LoggedItem | undefined {
  return state.items.findLast(
    ({ body, struckBy }) => struckBy === null && body.kind === "mark" && body.mark === mark,
  );
}

/** The items that stand and were logged after this one. */
function itemsAfter({ state }: Situation, { seq }: LoggedItem): LoggedItem[] {
  return state.items.filter((item) => item.seq > seq && item.struckBy === null);
}
