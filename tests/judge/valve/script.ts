import { judge } from "../../../src/judge/judge.ts";
import type { Judgement } from "../../../src/judge/judgement.ts";
import { type Situation, situationOf } from "../../../src/judge/situation.ts";
import { type Belief, beliefOf } from "../../../src/judge/valve/belief.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import type { Sheet } from "../../../src/visit/sheet.ts";
import { sheet } from "../../support/sheets.ts";
import { co2, high, low, play, reading, type Said, turn } from "../../support/visits.ts";

/** CO2 read again, or a turn of the firing's screw, a full wait, and then CO2 read. */
export type Move = number | readonly [turns: number, co2: number];

/** What is believed and judged after CO2 was read and the screw turned at one firing; at low fire high fire stands at 9.2 %. */
export function after(
  firing: Firing,
  moves: readonly Move[],
  chosen: Sheet = sheet(),
): { belief: Belief; judgement: Judgement; situation: Situation } {
  let seconds = 0;
  const script: Said[] = firing === "low" ? [[0, high, co2(9.2), reading("co", 30)]] : [];
  for (const move of moves) {
    if (typeof move === "number") {
      seconds += 10;
      script.push([seconds, firing === "high" ? high : low, co2(move), reading("co", 40)]);
      continue;
    }
    const [turns, value] = move;
    script.push([seconds + 10, turn(turns)]);
    seconds += 70;
    script.push([seconds, co2(value), reading("co", 40)]);
  }
  const { state, since, now } = play(script, { sheet: chosen });
  const situation = situationOf(state, since, now);
  const belief = beliefOf(situation, firing);
  if (!belief) throw new Error("expected a belief after a settled reading");
  return { belief, judgement: judge(state, since, now), situation };
}
