import { type Turn, takeTurn } from "../../../src/answer/turn.ts";
import { loadLanguage } from "../../../src/cli/language.ts";
import type { Advice } from "../../../src/judge/judgement.ts";
import { createParser } from "../../../src/meaning/parser.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { shortMeaning } from "../short.ts";
import { head, time, typed } from "../visits.ts";
import { chance } from "./chance.ts";
import { firingSaid, pressureSaid, readingRepeated, readingSaid, type Said, turnSaid } from "./phrase.ts";
import { type Play, Work } from "./play.ts";
import type { ValveSpec } from "./valve.ts";

const parser = createParser(loadLanguage());

/** Utterances after which nobody would go on. */
const PATIENCE = 250;

/** Seconds to get to the screw, and to let the burner follow a change of firing. */
const REACH = 10;
const FOLLOW = 50;
/** Seconds until what was asked about is said again. */
const REPEAT = 8;

/** A technician who says what he reads and turns, and does exactly what is advised: the real visit code from words to advice. */
export function withTheApp(spec: ValveSpec, seed: number): Play {
  const work = new Work(spec, seed);
  const { boiler } = work;
  const habits = chance(seed + 77);
  let visit: Visit = {
    format: "burnerside-visit/1",
    head: head({ sheet: spec.sheet, fuel: spec.fuel }),
    entries: [],
  };
  let ids = 0;

  const say = ({ text, meant }: Said): Turn => {
    const turn = takeTurn(parser, visit, typed(text), time(work.seconds), () => `e${ids++}`);
    visit = turn.visit;
    const heard = shortMeaning(turn.meaning);
    if (heard !== meant) work.misheard.push(`${text} | ${heard}`);
    const { high, low } = boiler.settled;
    work.lines.push(
      `${work.seconds.toFixed(0).padStart(5)} s  ${text}   [truly ${high.toFixed(2)}, ${low.toFixed(2)}]\n         ${turn.reply.answer}`,
    );
    return turn;
  };
  const read = () => {
    const shown = boiler.read(work.seconds);
    const misheard = work.misheard.length;
    const turn = say(readingSaid(habits, boiler.firing, shown));
    if (work.misheard.length === misheard) return turn;
    work.seconds += REPEAT;
    return say(readingRepeated(shown));
  };
  const goTo = (firing: Firing) => {
    boiler.goTo(firing, work.seconds);
    const turn = say(firingSaid(habits, firing));
    work.seconds += FOLLOW;
    return turn;
  };
  const pressure = (condition: "static" | "dynamic") => say(pressureSaid(condition, spec.supply[condition]));

  const follow = (advice: Exclude<Advice, { action: "close-up" | "stop" }>, next: string): Turn => {
    work.seconds += REACH;
    switch (advice.action) {
      case "turn":
        work.turn(advice.adjuster, advice.turns, advice.expect);
        say(turnSaid(habits, advice.adjuster, advice.turns));
        // Sometimes a little late, never early.
        work.seconds += advice.waitSeconds + (habits.is(0.3) ? habits.from(0, 30) : 0);
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
