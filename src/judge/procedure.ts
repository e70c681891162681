import { capital } from "../measure/capital.ts";
import { BEFORE_CHECKS, type BeforeCheck } from "../measure/firing.ts";
import { type Ask, goTo, NONE, wait } from "./ask.ts";
import { CHECK_TO_DO, openChecks } from "./closing.ts";
import { current } from "./current.ts";
import { askForFiring, askForReading, isProved } from "./flue-stage.ts";
import type { Stage } from "./judgement.ts";
import { settleLeft } from "./settle.ts";
import type { Situation } from "./situation.ts";
import { gasPressureOut, missingPressures } from "./warnings/gas-pressure.ts";

/** One stage of the work: when it is behind us, and what it asks for next. */
interface StageRule {
  readonly stage: Stage;
  readonly satisfied: (s: Situation) => boolean;
  readonly ask: (s: Situation) => Ask;
}

/**
 * The order of work, as data. The stage is the first that is not satisfied, whatever the technician did in between: what is
 * read first is as found, what stands when all is proved is as left.
 */
const TEST: readonly StageRule[] = [
  {
    stage: "gas-pressure",
    satisfied: (s) => gasPressureOut(s) === null && (wantedPressures(s).length === 0 || burnerWorkBegun(s)),
    ask: askForPressure,
  },
  { stage: "high-fire", satisfied: (s) => isProved(s, "high"), ask: (s) => askForFiring(s, "high") },
  { stage: "low-fire", satisfied: (s) => isProved(s, "low"), ask: (s) => askForFiring(s, "low") },
  {
    stage: "recheck-high",
    // A low-fire touch moves high fire as well.
    satisfied: (s) => isProved(s, "high", lastLowTouch(s)),
    ask: askForRecheck,
  },
];

const CLOSE_UP: StageRule = {
  stage: "close-up",
  satisfied: (s) => s.state.finished && openChecks(s).length === 0,
  ask: askForClosing,
};

const PROCEDURE: readonly StageRule[] = [
  {
    stage: "before-test",
    satisfied: (s) => testBegun(s) || openBefore(s).length === 0,
    ask: askBefore,
  },
  ...TEST,
  CLOSE_UP,
];

const FINISHED: StageRule = {
  stage: "finished",
  satisfied: () => false,
  ask: () => ({ advice: NONE, next: "The visit is finished." }),
};

/** Where the work stands. Who says "finish" is taken at his word, but still has to close up. */
export function stageOf(s: Situation): { stage: Stage; ask: Ask } {
  return firstOf(s, s.state.finished ? [CLOSE_UP] : PROCEDURE);
}

/** The stages of the test itself that are not behind us. */
export function unproved(s: Situation): Stage[] {
  return TEST.filter((rule) => !rule.satisfied(s)).map(({ stage }) => stage);
}

function firstOf(s: Situation, rules: readonly StageRule[]): { stage: Stage; ask: Ask } {
  const { stage, ask } = rules.find((rule) => !rule.satisfied(s)) ?? FINISHED;
  return { stage, ask: ask(s) };
}

/** Each thing to confirm before the test. Isolation and tap are for the gas pressure: without limits for it they are not asked. */
const BEFORE_TO_DO: Readonly<Record<BeforeCheck, string>> = {
  isolation: "isolate the gas",
  "pressure-tap": "open the pressure tap",
  "gas-on": "turn the gas on",
  "analyser-zeroed": "zero the analyser in fresh air",
};

const FOR_PRESSURE: ReadonlySet<BeforeCheck> = new Set(["isolation", "pressure-tap", "gas-on"]);

function openBefore(s: Situation): BeforeCheck[] {
  const wanted = BEFORE_CHECKS.filter((item) => wantedPressures(s).length > 0 || !FOR_PRESSURE.has(item));
  return wanted.filter((item) => s.state.checks[item] !== true);
}

/** Who reads a gas pressure or anything of the flue, names a firing or turns a screw has begun. */
function testBegun({ state }: Situation): boolean {
  const read = state.readings.some(
    ({ reading: { quantity } }) => quantity !== "co-ambient" && quantity !== "altitude",
  );
  return read || state.firing !== null || state.adjustments.length > 0;
}

/** Asks in one sentence for what is not confirmed; the advice is already the test's first. */
function askBefore(s: Situation): Ask {
  const { advice, next } = firstOf(s, [...TEST, CLOSE_UP]).ask;
  const todo = openBefore(s).map((item) => BEFORE_TO_DO[item]);
  const room = s.state.readings.some(({ reading }) => reading.quantity === "co-ambient")
    ? []
    : ["read room C O"];
  return {
    advice,
    next: `First ${[...todo, ...room].join(", ")}. Then ${next[0]?.toLowerCase()}${next.slice(1)}`,
  };
}

/** Static pressure is read with the burner off: while it is held at a firing it is not asked for. */
function wantedPressures(s: Situation) {
  return missingPressures(s).filter((condition) => condition === "dynamic" || s.state.firing === null);
}

/** Who reads the flue or turns a screw has gone on: pressure is not asked for again. */
function burnerWorkBegun({ state }: Situation): boolean {
  const flue = state.readings.some(({ reading: { quantity } }) => ["co2", "o2", "co"].includes(quantity));
  return flue || state.adjustments.length > 0;
}

function askForPressure(s: Situation): Ask {
  const [condition] = wantedPressures(s);
  if (condition === "dynamic" && s.state.firing?.firing !== "high") return goTo("high");
  return { advice: NONE, next: `Read the ${condition ?? "inlet"} gas pressure.` };
}

function lastLowTouch({ state }: Situation): number {
  return state.lastTouch.low?.seq ?? -1;
}

function askForRecheck(s: Situation): Ask {
  const atHigh = s.state.firing?.firing === "high";
  const left = settleLeft(s);
  if (atHigh && left > 0) return wait(left);
  const co2 = current(s, "co2", "high");
  if (atHigh && co2 && co2.seq > lastLowTouch(s)) return askForReading(s, "high", lastLowTouch(s));
  const next = atHigh ? "Read C O 2 again." : "Recheck high fire.";
  return { advice: { action: "recheck-high" }, next };
}

function askForClosing(s: Situation): Ask {
  const open = openChecks(s);
  const [first] = open;
  if (!first) return { advice: NONE, next: "All closed. Say finish visit." };
  const todo = CHECK_TO_DO[first];
  return { advice: { action: "close-up", open }, next: `${capital(todo)}.` };
}
