import type { Item, Unsure } from "../../src/meaning/item.ts";
import { entriesOf } from "../../src/visit/enter.ts";
import type { Entry } from "../../src/visit/entry.ts";
import { startState, step } from "../../src/visit/fold.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import {
  check,
  co,
  co2,
  command,
  gas,
  head,
  high,
  low,
  meaningOf,
  note,
  replace,
  room,
  strike,
  time,
  turn,
  unsure,
} from "./visits.ts";

type Things = readonly (Item | Unsure)[];

/** A numbers' generator with a seed: the same visit each time. */
function chance(seed: number): () => number {
  let x = seed;
  return () => {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return x / 2 ** 32;
  };
}

/** One round of the work, a phrase after the other, in the words it would be said in. */
function round(next: () => number, of: number): [seconds: number, phrase: string, things: Things][] {
  const tenth = (from: number, to: number) => Math.round((from + (to - from) * next()) * 10) / 10;
  const [a, b, c, d] = [tenth(8.4, 9.6), tenth(8.4, 9.6), tenth(8.3, 9.2), tenth(8.3, 9.2)];
  const ppm = () => Math.round(15 + 60 * next());
  const [w, x, y, z] = [ppm(), ppm(), ppm(), ppm()];
  const inches = tenth(5, 9);
  return [
    [20, "high fire", [high]],
    [30, `CO2 ${a}, CO ${w}`, [co2(a), co(w)]],
    [15, "quarter clockwise", [turn(0.25)]],
    [70, `CO2 ${b}`, [co2(b)]],
    [10, `CO ${x}`, [co(x)]],
    [10, `no, ${x + 1}`, [replace(x + 1)]],
    [12, `room CO ${of % 4}`, [room(of % 4)]],
    [20, "low fire", [low]],
    [40, `CO2 ${c} and CO ${y}`, [co2(c), co(y)]],
    [15, "a tenth counterclockwise", [turn(-0.1)]],
    [20, `CO2 ${d}`, [co2(d)]],
    [60, `CO2 ${d}`, [co2(d)]],
    [9, `CO ${z}`, [co(z)]],
    [5, "scratch that", [strike]],
    [12, `static gas pressure ${inches} inches`, [gas(inches, "static", "[in_i'H2O]")]],
    [15, "CO2 ninety two percent", [unsure("CO2 ninety two percent", co2(9.2))]],
    [20, `note round ${of} of the long day`, [note(`round ${of} of the long day`)]],
    [10, "panel is on", [check("panel", true)]],
    [10, "acknowledged", [command("acknowledge")]],
  ];
}

/** A visit of so many entries, as a day of trying things would leave it: readings, turns, mends, strikes, things not understood. */
export function longVisit(entries: number, changes: Partial<VisitHead> = {}): Visit {
  const next = chance(7);
  const visitHead = head({ title: "The long day", ...changes });
  const log: Entry[] = [];
  let state = startState(visitHead);
  let ids = 0;
  const nextId = () => `l${ids++}`;
  let seconds = 0;
  for (let of = 0; log.length < entries; of += 1) {
    for (const [gap, phrase, things] of round(next, of)) {
      seconds += gap;
      const heard = {
        text: phrase,
        engine: "offline",
        confidence: 0.86 + 0.14 * next(),
        sound: null,
      } as const;
      const since = entriesOf(meaningOf(...things), heard, state, time(seconds), nextId);
      log.push(...since);
      state = since.reduce(step, state);
    }
  }
  return { format: "burnerside-visit/1", head: visitHead, entries: log.slice(0, entries) };
}
