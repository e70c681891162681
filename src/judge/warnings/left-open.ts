import { capital } from "../../measure/capital.ts";
import type { Firing } from "../../measure/firing.ts";
import { CHECK_TO_DO, openChecks } from "../closing.ts";
import { current, latest } from "../current.ts";
import { needed } from "../flue-stage.ts";
import { unproved } from "../procedure.ts";
import type { Situation } from "../situation.ts";
import { verdictOf } from "../verdict.ts";
import { gasPressureOut, missingPressures } from "./gas-pressure.ts";
import { ambientCo, QUIET } from "./room.ts";
import type { Danger } from "./rule.ts";

/** Finishing with a firing, the gas pressure or the room not proved: firings first. */
export function leftUnproved(s: Situation): Danger | null {
  if (!s.finishing) return null;
  const open = [...(s.limits ? [...openFirings(s), ...openPressure(s)] : []), ...openRoom(s)];
  if (open.length === 0) return null;
  const sentences = open.map((text) => `${capital(text)}.`);
  return { code: "left-unproved", text: sentences.join(" "), stop: false };
}

/** Finishing with closing checks undone. */
export function leftOpen(s: Situation): Danger | null {
  const open = s.finishing ? openChecks(s) : [];
  if (open.length === 0) return null;
  return {
    code: "left-open",
    text: `Not done: ${open.map((item) => CHECK_TO_DO[item]).join(", ")}.`,
    stop: false,
  };
}

function openFirings(s: Situation): string[] {
  const stages = unproved(s);
  const high = stages.includes("high-fire") ? [openFiring(s, "high")] : [];
  const low = stages.includes("low-fire") ? [openFiring(s, "low")] : [];
  // What was never proved needs no recheck.
  const recheck = high.length === 0 && stages.includes("recheck-high") ? [openRecheck(s)] : [];
  return [...high, ...low, ...recheck];
}

function openRecheck(s: Situation): string {
  const again = current(s, "co2", "high");
  const touch = s.state.lastTouch.low;
  return `high fire was not ${again && touch && again.seq > touch.seq ? "proved again" : "rechecked"}`;
}

function openFiring(s: Situation, firing: Firing): string {
  if (latest(s, "co2", firing) === null) return `${firing} fire was not read`;
  const out = needed(s, firing).some((quantity) => {
    const r = current(s, quantity, firing);
    return r !== null && verdictOf(s, r).verdict === "fail";
  });
  return `${firing} fire is ${out ? "out of limits" : "not proved"}`;
}

function openPressure(s: Situation): string[] {
  if (gasPressureOut(s)) return ["gas pressure is out of limits"];
  const missing = missingPressures(s);
  return missing.length > 0 ? [`${missing.join(" and ")} gas pressure was not read`] : [];
}

/** A room CO that stops the work is told by its own warning. */
function openRoom(s: Situation): string[] {
  if (ambientCo(s)?.stop) return [];
  const room = s.state.readings.findLast(({ reading }) => reading.quantity === "co-ambient");
  return room && room.reading.value >= QUIET ? ["room C O is raised"] : [];
}
