import type { Dial } from "../measure/firing.ts";
import { hasPoint, isNumberTag, numberOf } from "./number.ts";

/** The tags of one island with its numbers worked out. */
export interface Counted {
  /** The reading's number, or null where none was said. */
  readonly number: number | null;
  /** Whether its decimals were said. */
  readonly pointed: boolean;
  readonly dial: Dial | null;
  /** Turns of a screw, without a sign, to six figures. */
  readonly turns: number;
  /** Every other tag, by its first word; the last one said counts. */
  readonly fields: ReadonlyMap<string, string>;
}

/**
 * Walks the tags in spoken order. A number runs until a tag that uses it up: `dial UNIT` makes it the meter's dial (`litres`
 * before that: a thousandth), `of N` a fraction of a turn with denominator N, `turns` whole turns, `degrees` of 360, `pair` the first of two.
 */
export function count(tags: readonly string[]): Counted {
  const fields = new Map<string, string>();
  let running: string[] = [];
  let number: number | null = null;
  let pointed = false;
  let dial: Dial | null = null;
  let turns = 0;
  const used = (): number | null => {
    const value = numberOf(running);
    running = [];
    return value;
  };
  for (const tag of tags) {
    if (isNumberTag(tag)) {
      running.push(tag);
      continue;
    }
    const space = tag.indexOf(" ");
    const name = space < 0 ? tag : tag.slice(0, space);
    const value = space < 0 ? "" : tag.slice(space + 1);
    switch (name) {
      case "of":
        turns += (used() ?? 1) / Number(value);
        break;
      case "turns":
        turns += used() ?? 1;
        break;
      case "degrees":
        turns += (used() ?? 0) / 360;
        break;
      case "pair":
        fields.set(name, `${used() ?? number}`);
        number = null;
        pointed = false;
        break;
      case "dial": {
        const size = (used() ?? 1) / (fields.has("litres") ? 1000 : 1);
        if (size > 0) dial = { value: Number(size.toPrecision(6)), unit: value === "m3" ? "m3" : "[ft_i]3" };
        break;
      }
      case "unit":
        pointed ||= hasPoint(running);
        number = used() ?? number;
        fields.set(name, value);
        break;
      default:
        fields.set(name, value);
    }
  }
  // "five pascals negative"
  if (number !== null && running.join() === "-") number = -number;
  pointed ||= hasPoint(running);
  return { number: used() ?? number, pointed, dial, turns: Number(turns.toPrecision(6)), fields };
}
