import type { ClosingCheck, Firing } from "../measure/firing.ts";
import type { Reading } from "./entry.ts";
import type { CurrentFiring, LoggedItem, StandingReading, VisitState } from "./state.ts";

/** What the standing items alone say. */
export type Derived = Pick<
  VisitState,
  "firing" | "finished" | "readings" | "adjustments" | "marks" | "checks" | "lastTouch"
>;

/** What the standing items say, in one pass in spoken order. */
export function derive(items: readonly LoggedItem[]): Derived {
  return goOn(NOTHING, items, 0);
}

const NOTHING: Derived = {
  firing: null,
  finished: false,
  readings: [],
  adjustments: [],
  marks: [],
  checks: {},
  lastTouch: { high: null, low: null },
};

/** The same, where it is known what the items before said: where only some were added, only those are gone through. */
export function deriveNext(
  items: readonly LoggedItem[],
  before: Derived & Pick<VisitState, "items">,
): Derived {
  const isAdded = before.items.every((item, place) => items[place] === item);
  return isAdded ? goOn(before, items, before.items.length) : derive(items);
}

/** What is said from a place on, after what was said before it. */
function goOn(before: Derived, items: readonly LoggedItem[], from: number): Derived {
  let { firing, finished } = before;
  const readings = [...before.readings];
  const adjustments = [...before.adjustments];
  const marks = [...before.marks];
  const checks = { ...before.checks };
  const lastTouch = { ...before.lastTouch };

  const goTo = (next: Firing, at: string) => {
    if (firing?.firing !== next) firing = { firing: next, since: at };
  };

  for (let place = from; place < items.length; place += 1) {
    const item = items[place];
    if (!item) continue;
    const { id, seq, at, body } = item;
    if (item.struckBy !== null) {
      // A number that was misheard does not move the boiler: "high fire, nine point two" struck leaves it at high fire.
      if (body.kind === "reading" && body.firing !== null && body.origin.firing === "said")
        goTo(body.firing, at);
      continue;
    }
    switch (body.kind) {
      case "reading": {
        for (const check of undoneBy(body)) delete checks[check];
        readings.push(standing(item, body));
        if (body.firing !== null && body.origin.firing === "said") goTo(body.firing, at);
        finished = false;
        break;
      }
      case "firing":
        delete checks["test-mode-off"];
        goTo(body.firing, at);
        finished = false;
        break;
      case "adjustment": {
        const { adjuster, turns } = body;
        // The cast undoes the compiler's narrowing: it does not see that goTo assigns.
        const then = firing as CurrentFiring | null;
        const touch = { id, seq, at, adjuster, turns, firing: then?.firing ?? null };
        adjustments.push(touch);
        // Who turns the low-fire screw has its cap off.
        if (adjuster === "low") delete checks["low-fire-cap"];
        lastTouch[adjuster] = touch;
        finished = false;
        break;
      }
      case "check":
        // A leak check before the gas train was closed says nothing of the screw that was closed after it.
        if (
          body.item === "pressure-test-screw" &&
          checks[body.item] !== true &&
          leakCheckedAt(items, place) !== at
        )
          delete checks["leak-check"];
        checks[body.item] = body.done;
        // The pressure test screw undone is the pressure tap open.
        if (body.item === "pressure-test-screw" && !body.done) checks["pressure-tap"] = true;
        if (body.item === "pressure-tap" && body.done) {
          delete checks["manometer-removed"];
          delete checks["pressure-test-screw"];
          delete checks["leak-check"];
        }
        // Out of test mode the burner is no longer held at a firing rate.
        if (body.item === "test-mode-off" && body.done) firing = null;
        break;
      case "mark":
        marks.push({ id, seq, at, mark: body.mark });
        if (body.mark === "finished") finished = true;
        break;
      case "note":
        break;
    }
  }
  return { firing, readings, adjustments, lastTouch, checks, marks, finished };
}

/** When a leak check was last made or denied before a place, ISO 8601; null where it never was. */
function leakCheckedAt(items: readonly LoggedItem[], place: number): string | null {
  const isLeakCheck = ({ body, struckBy }: LoggedItem) =>
    struckBy === null && body.kind === "check" && body.item === "leak-check";
  return items.slice(0, place).findLast(isLeakCheck)?.at ?? null;
}

/** The standing readings of items, so that what was worked out for one is found again after the next entry. */
const known = new WeakMap<LoggedItem, StandingReading>();

function standing(item: LoggedItem, reading: Reading): StandingReading {
  const found = known.get(item);
  if (found) return found;
  const { id, seq, at, said, confidence } = item;
  const history = item.history.filter((past) => past.kind === "reading");
  const made = { id, seq, at, said, confidence, reading, history };
  known.set(item, made);
  return made;
}

/** The closing checks that a reading takes back: to measure, what was closed has been opened again. */
function undoneBy({ quantity, firing }: Reading): readonly ClosingCheck[] {
  switch (quantity) {
    case "co2":
    case "o2":
    case "co":
    case "flue-temperature":
      return firing === null ? ["test-port"] : ["test-port", "test-mode-off"];
    case "gas-pressure-inlet":
      return ["manometer-removed", "pressure-test-screw", "leak-check"];
    default:
      return [];
  }
}
