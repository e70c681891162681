import { capital } from "../../measure/capital.ts";
import type { Firing } from "../../measure/firing.ts";
import { type Bank, chanceOf, chanceSpent } from "./bank.ts";

/** What is wrong with a screw, as far as the readings tell. */
export interface Fault {
  /** CO2 goes against the turns, does not answer them, or no longer does. */
  readonly kind: "reversed" | "dead" | "spent";
  /** Sure enough to stop; else another reading should tell. */
  readonly sure: boolean;
}

/** Above this probability a fault is likely, above that one it is sure. */
const LIKELY = 0.5;
const SURE = 0.9;

/** A screw that works the wrong way is worth another reading long before it is likely. */
const WORTH_A_LOOK = 0.3;

/** Read twice, it is enough to stop: the next turn would make things worse. Where that means leaner, a surer sign is awaited. */
const READ_TWICE = { richer: 0.5, leaner: 0.8 } as const;

/**
 * The likeliest fault for turns in this direction (1 towards rising CO2), or null where the screw is likely sound.
 * `confirmed`: CO2 was read more than once since the last turn. A screw that does nothing gets another turn to show itself.
 */
export function faultOf(bank: Bank, direction: 1 | -1, confirmed: boolean): Fault | null {
  const reversed = chanceOf(bank, "reversed");
  if (reversed > WORTH_A_LOOK) {
    // A screw that is turned to make it richer, and works the wrong way, makes it leaner.
    const enough = direction > 0 ? READ_TWICE.leaner : READ_TWICE.richer;
    return { kind: "reversed", sure: reversed > SURE || (confirmed && reversed > enough) };
  }
  const dead = chanceOf(bank, "dead");
  const spent = chanceSpent(bank, direction);
  if (dead + spent <= LIKELY) return null;
  return { kind: dead >= spent ? "dead" : "spent", sure: dead + spent > SURE };
}

/** The fault as it is told: what the readings show, then what it may be. */
export function faultText({ kind }: Fault, firing: Firing): string {
  const what = `${capital(firing)} fire C O 2`;
  switch (kind) {
    case "reversed":
      return `${what} moves against the turn: wrong screw, wrong way, or the sheet is wrong.`;
    case "dead":
      return `${what} does not answer the screw: it does nothing, is at its end, or is the wrong screw.`;
    case "spent":
      return `${what} no longer answers the screw: it is at its end, or the wrong screw.`;
  }
}
