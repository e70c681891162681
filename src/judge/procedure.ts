import { type Ask, goTo, NONE, wait } from "./ask.ts";
import { CHECK_TO_DO, openChecks } from "./closing.ts";
import { current } from "./current.ts";
import { askForFiring, askForReading, isProved } from "./flue-stage.ts";
import type { Stage } from "./judgement.ts";
import { settleLeft } from "./settle.ts";
import type { Situation } from "./situation.ts";
import { gasPressureOut } from "./warnings/gas-pressure.ts";

/** One stage of the work: when it is behind us, and what it asks for next. */
interface StageRule {
  readonly stage: Stage;
  readonly satisfied: (s: Situation) => boolean;
  readonly ask: (s: Situation) => Ask;
}

/** The order of work, as data. The stage is the first that is not satisfied, whatever the technician did in between. */
const PROCEDURE: readonly [StageRule, ...StageRule[]] = [
  {
    stage: "gas-pressure",
    satisfied: (s) => gasPressureOut(s) === null && (missingPressures(s).length === 0 || burnerWorkBegun(s)),
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
  {
    stage: "close-up",
    satisfied: (s) => s.state.finished && openChecks(s).length === 0,
    ask: askForClosing,
  },
];

const FINISHED: StageRule = {
  stage: "finished",
  satisfied: () => false,
  ask: () => ({ advice: NONE, next: "The visit is finished." }),
};

/** Where the work stands. Who says "finish" is taken at his word, but still has to close up. */
export function stageOf(s: Situation): { stage: Stage; ask: Ask } {
  const left = s.state.finished ? PROCEDURE.filter(({ stage }) => stage === "close-up") : PROCEDURE;
  const { stage, ask } = left.find((rule) => !rule.satisfied(s)) ?? FINISHED;
  return { stage, ask: ask(s) };
}

function missingPressures(s: Situation): ("static" | "dynamic")[] {
  const limits = s.limits?.["gas-pressure-inlet"];
  return (["static", "dynamic"] as const).filter(
    (condition) =>
      limits?.[condition] &&
      !s.state.readings.some(
        ({ reading }) => reading.quantity === "gas-pressure-inlet" && reading.condition === condition,
      ),
  );
}

/** Who reads the flue or turns a screw has gone on: pressure is not asked for again. */
function burnerWorkBegun({ state }: Situation): boolean {
  const flue = state.readings.some(({ reading: { quantity } }) => ["co2", "o2", "co"].includes(quantity));
  return flue || state.adjustments.length > 0;
}

function askForPressure(s: Situation): Ask {
  const [condition] = missingPressures(s);
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
  return { advice: { action: "close-up", open }, next: `${todo[0]?.toUpperCase()}${todo.slice(1)}.` };
}
