import type { Firing } from "../measure/firing.ts";
import { spokenNumber } from "../measure/show.ts";
import type { Advice } from "./judgement.ts";
import { spokenScrew, spokenSeconds, spokenTurns } from "./turns.ts";

/** The next thing to do, and the same in one short sentence. */
export interface Ask {
  readonly advice: Advice;
  readonly next: string;
}

export const NONE: Advice = { action: "none" };

export const goTo = (firing: Firing): Ask => ({
  advice: { action: "go-to", firing },
  next: `Go to ${firing} fire.`,
});

export const read = (what: string, firing: Firing): Ask => ({
  advice: { action: "read", firing },
  next: `Read ${what}.`,
});

export const wait = (seconds: number): Ask => ({
  advice: { action: "wait", seconds: Math.ceil(seconds) },
  next: `Wait ${spokenSeconds(seconds)}.`,
});

export const stop = (reason: string): Ask => ({ advice: { action: "stop", reason }, next: reason });

export const turn = (advice: Extract<Advice, { action: "turn" }>): Ask => {
  const screw = `Turn the ${spokenScrew(advice.adjuster)} ${spokenTurns(advice.turns)}`;
  const expect = `, expect ${spokenNumber(middle(advice.expect))}`;
  const wait = advice.waitSeconds > 0 ? `, wait ${spokenSeconds(advice.waitSeconds)}` : "";
  return { advice, next: `${screw}${expect}${wait}.` };
};

/** The middle of a band, vol-%, to the tenth that an analyser shows. */
function middle({ min, max }: { readonly min: number; readonly max: number }): number {
  return Math.round((min + max) * 5) / 10;
}
