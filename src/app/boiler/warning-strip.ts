import { openChecks } from "../../judge/closing.ts";
import { WARNING_CODES } from "../../judge/judgement.ts";
import { openWarnings, type Shown, topicOf, type Warned } from "../../judge/raised.ts";
import { settleLeft, tooEarly } from "../../judge/settle.ts";
import { situationOf } from "../../judge/situation.ts";
import { leftUnproved } from "../../judge/warnings/left-open.ts";
import { shownText } from "../../measure/text.ts";
import { clockTime } from "../../record/wording.ts";
import type { VisitState } from "../../visit/state.ts";
import type { Given } from "./session.ts";

/** A warning that is still open and is not on the plate. */
export interface StripLine {
  /** What it is about: one line each. */
  readonly topic: string;
  readonly code: Shown["code"];
  /** As it was given last. */
  readonly text: string;
  /** Time of day of that, at the place of the visit. */
  readonly time: string;
  /** How often it was given and not acknowledged. */
  readonly times: number;
}

/** The warnings beside the present reply's own. */
export interface WarningStrip {
  /** Gravest first, a line for each thing that is warned of: CO at high fire, CO at low fire. */
  readonly lines: readonly StripLine[];
  /** Whether there is anything to take note of, here or on the plate. */
  readonly canAcknowledge: boolean;
  /** Whether the present reply's own warnings have just been given for the first time. */
  readonly isNews: boolean;
}

export function warningStrip(warned: Warned, state: VisitState, { reply, at }: Given): WarningStrip {
  const onPlate = new Set(reply.judgement.warnings.map(topicOf));
  const open = openWarnings(warned, state, at).filter(
    (each) => !onPlate.has(topicOf(each)) && !isOver(each, state, at),
  );
  const gravestFirst = WARNING_CODES.flatMap((code) => open.filter((each) => each.code === code));
  const topics = [...new Set(gravestFirst.map(topicOf))];
  return {
    lines: topics.flatMap((topic) =>
      lineOf(
        topic,
        open.filter((each) => topicOf(each) === topic),
        state,
      ),
    ),
    canAcknowledge: warned.raised.some(
      (each) => each.acknowledgedAt === null && (onPlate.has(topicOf(each)) || !isOver(each, state, at)),
    ),
    isNews: warned.raised.some((each) => each.at === at),
  };
}

/**
 * Whether a warning has nothing left to say at `now` (ISO 8601), acknowledged or not: the wait that it asked for is over or its
 * reading is struck; what it found open at the end is closed, or the visit is open again. The record keeps it.
 */
function isOver({ code, at }: Shown, state: VisitState, now: string): boolean {
  const s = situationOf(state, [], now);
  switch (code) {
    case "read-too-early": {
      const early = state.readings.filter((r) => r.at === at && tooEarly(s, r) > 0);
      return early.every((r) => settleLeft(s, now, r.seq, r.reading.firing) <= 0);
    }
    case "left-open":
      return !state.finished || openChecks(s).length === 0;
    case "left-unproved":
      return !state.finished || leftUnproved({ ...s, finishing: true }) === null;
    default:
      return false;
  }
}

/** One line for all that was given about one thing, oldest first. */
function lineOf(topic: string, given: readonly Shown[], { head }: VisitState): StripLine[] {
  const last = given.at(-1);
  if (!last) return [];
  const time = clockTime(last.at, head.zone);
  return [{ topic, code: last.code, text: shownText(last.text), time, times: given.length }];
}
