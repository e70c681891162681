import type { WARNING_CODES } from "../../../src/judge/judgement.ts";
import type { FaultName } from "./draw.ts";
import type { Play } from "./play.ts";

type Code = (typeof WARNING_CODES)[number];

interface Right {
  readonly codes: readonly Code[];
  /** What the reason must say: the firing, and what is wrong. */
  readonly says: RegExp;
}

const OVER_LIMIT: readonly Code[] = ["flue-co-over-limit", "flue-co-air-free-over-400"];

/** For each kind of fault the warnings that name it. */
const RIGHT: Readonly<Record<FaultName, Right>> = {
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
  "loose high": { codes: ["no-response"], says: /high fire.*(does nothing|no longer)/i },
  "loose low": { codes: ["no-response"], says: /low fire.*(does nothing|no longer)/i },
  sooted: { codes: OVER_LIMIT, says: /C O /i },
  "supply static": { codes: ["gas-pressure-out"], says: /static/i },
  "supply dynamic": { codes: ["gas-pressure-out"], says: /dynamic|drops/i },
};

/** Whether a boiler with this fault was stopped, and the reason given is a right one. */
export function faultFound(name: FaultName, { end, reason, warnings, coTruly }: Play): boolean {
  if (end !== "stopped") return false;
  const { codes, says } = RIGHT[name];
  return warnings.some(({ code, text }) => {
    if (!isSame(text, reason)) return false;
    // Whatever else is wrong: CO over its limit is reason enough, where it truly is.
    if (coTruly && OVER_LIMIT.includes(code)) return true;
    return codes.includes(code) && says.test(text);
  });
}

/** The reason of a stop is the text of the warning that made it. */
const isSame = (text: string, reason: string) => text.trim() === reason.trim();
