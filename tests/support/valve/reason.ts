import type { WARNING_CODES } from "../../../src/judge/judgement.ts";
import type { FaultName } from "./draw.ts";
import type { Play } from "./play.ts";

type Code = (typeof WARNING_CODES)[number];

/** For each kind of fault the warnings that name it, and the firing that the reason must name; null where none. */
const RIGHT: Readonly<Record<FaultName, { readonly codes: readonly Code[]; readonly says: RegExp }>> = {
  "dead high": { codes: ["no-response"], says: /high fire.*(does nothing|no longer)/i },
  "dead low": { codes: ["no-response"], says: /low fire.*(does nothing|no longer)/i },
  "reversed high": { codes: ["moved-wrong-way"], says: /high fire.*against the turn/i },
  "reversed low": { codes: ["moved-wrong-way"], says: /low fire.*against the turn/i },
  // Which screw is turned shows only in what the readings do, at whichever firing it shows first.
  "wrong-screw high": {
    codes: ["wrong-screw", "no-response", "moved-wrong-way", "no-progress"],
    says: /(wrong|right) screw/i,
  },
  "wrong-screw low": {
    codes: ["wrong-screw", "no-response", "moved-wrong-way", "no-progress"],
    says: /(wrong|right) screw/i,
  },
  "at-its-end high": { codes: ["no-response"], says: /high fire.*at its end/i },
  "at-its-end low": { codes: ["no-response"], says: /low fire.*at its end/i },
  sooted: { codes: ["flue-co-over-limit", "flue-co-air-free-over-400"], says: /C O /i },
  "supply static": { codes: ["gas-pressure-out"], says: /static/i },
  "supply dynamic": { codes: ["gas-pressure-out"], says: /dynamic|drops/i },
};

/** Whether a boiler with this fault was stopped for the right reason. */
export function faultFound(name: FaultName, { end, warnings }: Play): boolean {
  const { codes: right, says } = RIGHT[name];
  return end === "stopped" && warnings.some(({ code, text }) => right.includes(code) && says.test(text));
}
