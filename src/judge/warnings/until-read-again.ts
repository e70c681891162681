import { capital } from "../../measure/capital.ts";
import { type QuantityId, quantityOf } from "../../measure/quantity.ts";
import { spokenReading } from "../../measure/show.ts";
import { derive } from "../../visit/derive.ts";
import type { Reading } from "../../visit/entry.ts";
import type { LoggedItem, VisitState } from "../../visit/state.ts";
import { countBefore } from "../looked-up.ts";
import type { Situation } from "../situation.ts";
import type { WarningRule } from "./rule.ts";
import { lostReadings } from "./taken-back.ts";

/** What is read at the burner and can stop the work. */
const STOPPING: ReadonlySet<QuantityId> = new Set(["co", "co2", "o2", "gas-pressure-inlet"]);

interface Struck {
  readonly item: LoggedItem;
  readonly reading: Reading;
}

/**
 * The same rule, whose stop outlasts a strike: who says "scratch that" has not measured again. It goes with the next reading
 * of what was struck. A mend ("no, forty") is a reading and settles it by itself.
 */
export function untilReadAgain(rule: WarningRule): WarningRule {
  return (s) => {
    const now = rule(s);
    if (now?.stop) return now;
    const struck = notReadAgain(s);
    for (const each of struck.toReversed()) {
      const before = rule(unstruck(s, each, struck));
      if (before?.stop) return { code: before.code, text: textOf(each.reading), stop: true };
    }
    return now;
  };
}

/** What was worked out for a state: several rules ask for it. */
const known = new WeakMap<VisitState, readonly Struck[]>();

/** Readings that were struck, or mended to something else, after which nothing of the kind was read; in spoken order. */
function notReadAgain({ state }: Situation): readonly Struck[] {
  const found = known.get(state);
  if (found) return found;
  const { readings } = state;
  const struck = state.items.flatMap((item) =>
    lostReadings(item)
      .filter(({ quantity }) => STOPPING.has(quantity))
      .filter(
        (lost) =>
          !readings.slice(countBefore(readings, item.seq + 1)).some((r) => isSameKind(lost, r.reading)),
      )
      .map((reading) => ({ item, reading })),
  );
  known.set(state, struck);
  return struck;
}

/** Of the same quantity, condition and firing; where the firing was not known, any will do. */
function isSameKind(struck: Reading, read: Reading): boolean {
  if (struck.quantity !== read.quantity || struck.condition !== read.condition) return false;
  return struck.firing === null || struck.firing === read.firing;
}

/** Situations as they would be, by the situation that is and the reading that was struck: several rules look at each. */
const supposed = new WeakMap<Situation, Map<Struck, Situation>>();

/** The situation as it would be had one of these not been struck, nor the readings of other quantities beside it. */
function unstruck(s: Situation, each: Struck, all: readonly Struck[]): Situation {
  const situations = supposed.get(s) ?? new Map<Struck, Situation>();
  supposed.set(s, situations);
  const found = situations.get(each);
  if (found) return found;
  // CO and CO2, both struck, stopped the work together.
  const beside = all.filter(({ reading }) => reading.quantity !== each.reading.quantity);
  const before = new Map([...beside, each].map(({ item, reading }) => [item, reading]));
  const items = s.state.items.map((item) => {
    const body = before.get(item);
    return body ? { ...item, body, struckBy: null } : item;
  });
  const made = { ...s, state: { ...s.state, items, ...derive(items) } };
  situations.set(each, made);
  return made;
}

function textOf({ quantity, value, unit, firing, condition }: Reading): string {
  const which = condition ? `${condition} ` : "";
  const where = firing ? ` at ${firing} fire` : "";
  const said = capital(which + spokenReading(quantity, value, unit));
  return `${said}${where} was logged. Read ${which}${quantityOf(quantity).spoken} again.`;
}
