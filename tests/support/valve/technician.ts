import { type Turn, takeTurn } from "../../../src/answer/turn.ts";
import { loadLanguage } from "../../../src/cli/language.ts";
import type { Advice } from "../../../src/judge/judgement.ts";
import { spokenTurns } from "../../../src/judge/turns.ts";
import { createParser } from "../../../src/meaning/parser.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { head, time, typed } from "../visits.ts";
import { chance } from "./chance.ts";
import { type Play, Work } from "./play.ts";
import type { ValveSpec } from "./valve.ts";

const parser = createParser(loadLanguage());

/** Utterances after which nobody would go on. */
const PATIENCE = 250;

/** Seconds to get to the screw, and to let the burner follow a change of firing. */
const REACH = 10;
const FOLLOW = 50;

/** A technician who says what he reads and turns, and does exactly what is advised: the real visit code from words to advice. */
export function withTheApp(spec: ValveSpec, seed: number): Play {
  const work = new Work(spec, seed);
  const { boiler } = work;
  const late = chance(seed + 77);
  let visit: Visit = {
    format: "burnerside-visit/1",
    head: head({ sheet: spec.sheet, fuel: spec.fuel }),
    entries: [],
  };
  let ids = 0;

  const say = (phrase: string): Turn => {
    const turn = takeTurn(parser, visit, typed(phrase), time(work.seconds), () => `e${ids++}`);
    visit = turn.visit;
    work.lines.push(`${work.seconds.toFixed(0).padStart(5)} s  ${phrase}\n         ${turn.reply.answer}`);
    return turn;
  };
  const read = () => {
    const { co2, co } = boiler.read(work.seconds);
    return say(`CO2 ${co2.toFixed(1)}, CO ${co}`);
  };
  const goTo = (firing: Firing) => {
    boiler.goTo(firing, work.seconds);
    const turn = say(`${firing} fire`);
    work.seconds += FOLLOW;
    return turn;
  };
  const pressure = (condition: "static" | "dynamic") =>
    say(`${condition} gas pressure ${spec.supply[condition].toFixed(1)} inches`);

  const follow = (advice: Exclude<Advice, { action: "close-up" | "stop" }>, next: string): Turn => {
    work.seconds += REACH;
    switch (advice.action) {
      case "turn":
        work.turn(advice.adjuster, advice.turns, advice.expect);
        say(`${advice.adjuster} screw ${spokenTurns(advice.turns)}`);
        // Sometimes a little late, never early.
        work.seconds += advice.waitSeconds + (late.is(0.3) ? late.from(0, 30) : 0);
        return read();
      case "read":
        return boiler.firing === advice.firing ? read() : goTo(advice.firing);
      case "wait":
        work.seconds += advice.seconds;
        return read();
      case "go-to":
        return goTo(advice.firing);
      case "recheck-high":
        if (boiler.firing !== "high") goTo("high");
        return read();
      case "none":
        return next.includes("static") ? pressure("static") : pressure("dynamic");
    }
  };

  let turn = pressure("static");
  for (let i = 0; i < PATIENCE; i += 1) {
    const { advice, warnings, next } = turn.reply.judgement;
    if (advice.action === "close-up") return work.done("in-range");
    if (advice.action === "stop") {
      return work.done("stopped", advice.reason, warnings);
    }
    turn = follow(advice, next);
  }
  return work.done("endless");
}
