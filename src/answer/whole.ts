import { CHECK_TO_DO, openChecks } from "../judge/closing.ts";
import { current } from "../judge/current.ts";
import type { Judgement } from "../judge/judgement.ts";
import { unproved } from "../judge/procedure.ts";
import { type Situation, situationOf } from "../judge/situation.ts";
import { spokenTurns } from "../judge/turns.ts";
import { verdictOf } from "../judge/verdict.ts";
import type { Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import { spokenNumber, spokenUnitOf } from "../measure/show.ts";
import { sentence } from "../measure/text.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";
import { withVerdicts } from "./logged.ts";
import { lowHangsOnHigh, noLimits } from "./no-limits.ts";
import type { Talkativeness } from "./talk.ts";
import { spokenBody } from "./things.ts";
import type { WithLimits } from "./verdict-words.ts";

/** The whole state of the visit in sentences, the present firing first: readings, screws, what is open. */
export function wholeState(
  state: VisitState,
  judgement: Judgement,
  now: string,
  talk: Talkativeness,
): string[] {
  return [...readingsSaid(state, now, talk), ...screwsSaid(state), openSaid(state, judgement, now)];
}

const LIMITS_SAID: Readonly<Record<Talkativeness, WithLimits>> = {
  short: "none",
  normal: "failing",
  full: "all",
};

/** The last readings of each firing with their verdicts, the present firing first, then gas pressure and room. */
export function readingsSaid(state: VisitState, now: string, talk: Talkativeness): string[] {
  if (state.readings.length === 0) return ["No readings yet."];
  const s = situationOf(state, [], now);
  const limits = LIMITS_SAID[talk];
  const present = state.firing?.firing ?? null;
  const other: Firing = present === "low" ? "high" : "low";
  const places = [present ?? "high", other, null] as const;
  const said = [
    ...places.flatMap((firing) => {
      const all = talk !== "short" && firing !== null && firing === present;
      return firingSaid(s, firing, all, limits);
    }),
    ...pressureSaid(s, limits),
    ...latest(s, ({ quantity }) => ALONE.has(quantity)).map((r) => sentence(spokenBody(r.reading))),
  ];
  const unjudged = noLimits(state.head);
  return unjudged === "" ? said : [...said, unjudged];
}

/** The readings of the present firing that ask for something to be done: out of limits, and of how it is now set. */
export function faultsSaid(state: VisitState, now: string): string[] {
  const s = situationOf(state, [], now);
  const firing = state.firing?.firing;
  if (!firing) return [];
  const failing = latest(s, (reading) => reading.firing === firing && JUDGED.has(reading.quantity)).filter(
    (r) => verdictOf(s, r).verdict === "fail" && !isOld(s, r, firing),
  );
  const values = failing.map((r) => spokenBody(r.reading));
  return judgedValues(s, failing, values, "failing").map(sentence);
}

/** What a firing is judged by. */
const JUDGED: ReadonlySet<QuantityId> = new Set(["co2", "o2", "co"]);
/** What belongs to no firing and is worth hearing again. */
const ALONE: ReadonlySet<QuantityId> = new Set(["co-ambient"]);

/** The readings of one firing, null for those of which it is not known; `all` of them, or what it is judged by. */
function firingSaid(s: Situation, firing: Firing | null, all: boolean, limits: WithLimits): string[] {
  const readings = latest(
    s,
    (reading) =>
      reading.firing === firing &&
      reading.quantity !== "gas-pressure-inlet" &&
      (all || JUDGED.has(reading.quantity)),
  );
  if (readings.length === 0) return [];
  const old = readings.map((r) => firing !== null && isOld(s, r, firing));
  const allOld = old.every((each) => each);
  const values = readings.map((r, i) => `${old[i] && !allOld ? `${BEFORE} ` : ""}${spokenBody(r.reading)}`);
  const place = firing ? `${firing} fire${allOld ? ` ${BEFORE}` : ""}` : "";
  return placed(place, judgedValues(s, readings, values, limits));
}

const BEFORE = "before the last turn";

function pressureSaid(s: Situation, limits: WithLimits): string[] {
  const readings = latest(s, ({ quantity }) => quantity === "gas-pressure-inlet");
  const units = readings.map(({ reading }) => reading.unit);
  const values = readings.map(({ reading: { condition, value, unit } }, i) => {
    // One gauge has one unit: said once.
    const named = unit === units[i - 1] ? "" : spokenUnitOf(value, unit);
    return [condition ?? "", spokenNumber(value), named].filter((word) => word !== "").join(" ");
  });
  return placed("gas pressure", judgedValues(s, readings, values, limits));
}

function judgedValues(
  s: Situation,
  readings: readonly StandingReading[],
  values: readonly string[],
  limits: WithLimits,
): string[] {
  return withVerdicts(
    values,
    s.limits ? readings.map((r) => verdictOf(s, r)) : [],
    limits,
    lowHangsOnHigh(s.state.head),
  );
}

function placed(place: string, values: readonly string[]): string[] {
  const [first, ...rest] = values;
  if (first === undefined) return [];
  return [sentence(place === "" ? first : `${place}: ${first}`), ...rest.map(sentence)];
}

/** Whether a screw was turned since, so that it no longer tells how the firing is set. */
function isOld(s: Situation, r: StandingReading, firing: Firing): boolean {
  const { quantity } = r.reading;
  return JUDGED.has(quantity) && verdictOf(s, r).verdict !== "wait" && current(s, quantity, firing) === null;
}

/** The last reading of each quantity and condition that is wanted, in the order in which each was first read. */
function latest(s: Situation, wanted: (reading: StandingReading["reading"]) => boolean): StandingReading[] {
  const last = new Map<string, StandingReading>();
  for (const r of s.state.readings) {
    if (wanted(r.reading)) last.set(`${r.reading.quantity} ${r.reading.condition}`, r);
  }
  return [...last.values()];
}

/** The net turns of each screw. */
function screwsSaid({ adjustments }: VisitState): string[] {
  return (["high", "low"] as const).flatMap((screw) => {
    const turns = adjustments.filter(({ adjuster }) => adjuster === screw);
    if (turns.length === 0) return [];
    const net = turns.reduce((sum, each) => sum + each.turns, 0);
    return [
      sentence(
        `${screw} fire screw ${Math.abs(net) < 0.001 ? "back where it was" : `${spokenTurns(net)} in all`}`,
      ),
    ];
  });
}

/** The stages still to do, or at the end the things still to close. */
function openSaid(state: VisitState, { stage }: Judgement, now: string): string {
  if (stage === "finished") return "Nothing is open.";
  const s = situationOf(state, [], now);
  if (stage === "close-up") {
    const checks = openChecks(s);
    return checks.length === 0 ? "All closed." : toDo(checks.map((item) => CHECK_TO_DO[item]));
  }
  const test = unproved(s);
  // What is not proved needs no recheck yet.
  const ahead = test.includes("high-fire") ? test.filter((each) => each !== "recheck-high") : test;
  const first = stage === "before-test" ? [stage] : [];
  return toDo([...first, ...ahead, "close-up"].map((each) => each.replaceAll("-", " ")));
}

function toDo(things: readonly string[]): string {
  return sentence(`still to do: ${things.join(", ")}`);
}
