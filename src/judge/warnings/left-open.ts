import type { Firing } from "../../measure/firing.ts";
import { CHECK_TO_DO, openChecks } from "../closing.ts";
import { unproved } from "../procedure.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";

/** Finishing with a firing or the gas pressure not proved. */
export function leftUnproved(s: Situation): Danger | null {
  if (!s.finishing || !s.state.finished || !s.limits) return null;
  const stages = unproved(s);
  // What was never proved needs no recheck.
  const told = stages.includes("high-fire") ? stages.filter((stage) => stage !== "recheck-high") : stages;
  const open = told.flatMap((stage) => openTest(s, stage));
  if (open.length === 0) return null;
  const sentences = open.map((text) => `${text[0]?.toUpperCase()}${text.slice(1)}.`);
  return { code: "left-unproved", text: sentences.join(" "), stop: false };
}

/** Finishing with closing checks undone. */
export function leftOpen(s: Situation): Danger | null {
  const open = s.finishing && s.state.finished ? openChecks(s) : [];
  if (open.length === 0) return null;
  return {
    code: "left-open",
    text: `Not done: ${open.map((item) => CHECK_TO_DO[item]).join(", ")}.`,
    stop: false,
  };
}

/** What is open at a stage of the test, in words. */
function openTest(s: Situation, stage: ReturnType<typeof unproved>[number]): string[] {
  switch (stage) {
    case "gas-pressure":
      return ["gas pressure is not proved"];
    case "high-fire":
      return [firingOpen(s, "high")];
    case "low-fire":
      return [firingOpen(s, "low")];
    case "recheck-high":
      return ["high fire was not rechecked"];
    case "before-test":
    case "close-up":
    case "finished":
      return [];
  }
}

function firingOpen(s: Situation, firing: Firing): string {
  const read = s.state.readings.some(
    ({ reading }) => reading.firing === firing && reading.quantity === "co2",
  );
  return `${firing} fire ${read ? "is not proved" : "was not read"}`;
}
