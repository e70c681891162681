import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { judge } from "../../src/judge/judge.ts";
import { Judgement } from "../../src/judge/judgement.ts";
import { situationOf } from "../../src/judge/situation.ts";
import { dangersOf } from "../../src/judge/warnings/list.ts";
import type { Item } from "../../src/meaning/item.ts";
import { anyScript } from "../support/arbitrary.ts";
import { judged } from "../support/judged.ts";
import { PRESSURE_SHEET, PROPANE, sheet } from "../support/sheets.ts";
import {
  check,
  co,
  command,
  gas,
  high,
  low,
  note,
  play,
  replace,
  room,
  type Said,
  strike,
  time,
} from "../support/visits.ts";

/** Codes of what stops the work after a script. */
function stopsOf(script: readonly Said[]): string[] {
  const { state, now } = play(script, { sheet: PRESSURE_SHEET });
  return dangersOf(situationOf(state, [], now))
    .filter(({ stop }) => stop)
    .map(({ code }) => code);
}

describe("always, whatever is said", () => {
  const sheets = fc.constantFrom(null, sheet(), PRESSURE_SHEET, sheet({ fuels: { propane: PROPANE } }));

  it("judging never throws, fits its schema, and every reading of the utterance has one verdict", () => {
    fc.assert(
      fc.property(anyScript, sheets, (script, chosen) => {
        const { state, since, now } = play(script, { sheet: chosen });
        const judgement = judge(state, since, now);
        expect(() => Judgement.parse(judgement)).not.toThrow();
        expect(judgement.next).not.toBe("");
        const brought = new Set(since.map(({ id, body }) => (body.kind === "replace" ? body.target : id)));
        expect(judgement.verdicts).toHaveLength(state.readings.filter(({ id }) => brought.has(id)).length);
      }),
      { numRuns: 300 },
    );
  });
  it("the same visit at the same time gets the same judgement, whatever was judged before", () => {
    fc.assert(
      fc.property(anyScript, sheets, (script, chosen) => {
        // Judged after every utterance, as in the app, and once from a copy that nothing was judged of.
        script.forEach((_, i) => void judged(script.slice(0, i + 1), { sheet: chosen }));
        const { state, since, now } = play(script, { sheet: chosen });
        expect(judge(structuredClone(state), since, now)).toEqual(judge(state, since, now));
      }),
      { numRuns: 50 },
    );
  });
  it("what stops the work stays until something is measured, turned or checked again", () => {
    const grave = fc.constantFrom<Item[]>(
      room(35),
      room(80),
      co(400, "high"),
      gas(3, "static"),
      command("gas-smell"),
      command("co-alarm"),
    );
    const talk = fc.constantFrom<Item[]>(
      high,
      low,
      note("a"),
      command("acknowledge"),
      command("finish-visit"),
      command("start-timer"),
      command("next-step"),
      check("panel"),
      check("low-fire-cap", false),
    );
    fc.assert(
      fc.property(anyScript, grave, fc.array(talk, { maxLength: 8 }), (script, danger, after) => {
        const begun: Said[] = [...script, [9000, danger]];
        const stops = stopsOf(begun);
        fc.pre(stops.length > 0);
        const later = after.map((item, i): Said => [9100 + i, item]);
        expect(stopsOf([...begun, ...later])).toEqual(stops);
      }),
    );
  });
  it("a room CO that stops the work is not mended or struck away", () => {
    const measured = fc.constantFrom(room(35), room(80), room(1500));
    const taken = fc.array(fc.constantFrom<Item[]>(strike, replace(0), replace(7)), {
      minLength: 1,
      maxLength: 4,
    });
    fc.assert(
      fc.property(anyScript, measured, taken, (script, danger, mends) => {
        const begun: Said[] = [...script, [9000, danger]];
        fc.pre(stopsOf(begun).length > 0);
        expect(judged([...begun, [9100, ...mends]], { sheet: PRESSURE_SHEET }).advice.action).toBe("stop");
      }),
    );
  });
  it("a flue reading or gas pressure that stops the work is not struck away", () => {
    const measured = fc.constantFrom(co(400, "high"), co(2000, "low"), gas(3, "static"), gas(1, "dynamic"));
    fc.assert(
      fc.property(anyScript, measured, (script, danger) => {
        const begun: Said[] = [...script, [9000, danger]];
        fc.pre(stopsOf(begun).length > 0);
        expect(stopsOf([...begun, [9100, strike]])).toEqual(expect.arrayContaining(stopsOf(begun)));
      }),
    );
  });
  it("nothing passes without a limit", () => {
    fc.assert(
      fc.property(anyScript, sheets, (script, chosen) => {
        const { state, visit, now } = play(script, { sheet: chosen });
        for (const { verdict, limit } of judge(state, visit.entries, now).verdicts) {
          if (verdict === "pass" || verdict === "fail") expect(limit).not.toBeNull();
          if (chosen === null) expect(verdict).toBe("no-limit");
        }
      }),
    );
  });
  it("a turn is advised only at its own firing, within the largest step, past no limit, after no stop", () => {
    fc.assert(
      fc.property(anyScript, (script) => {
        const chosen = sheet();
        const { state, since, now } = play(script, { sheet: chosen });
        const { advice } = judge(state, since, now);
        if (advice.action !== "turn") return;
        expect(state.firing?.firing).toBe(advice.adjuster);
        expect(Math.abs(advice.turns)).toBeLessThanOrEqual(
          chosen.adjusters[advice.adjuster].largestStepTurns,
        );
        const co2Now = state.readings.findLast(
          ({ reading }) => reading.quantity === "co2" && reading.firing === advice.adjuster,
        );
        const { value = Number.NaN } = co2Now?.reading ?? {};
        if (advice.adjuster === "high") {
          // Where it is not known where CO2 stands, the worst case of the smallest step may pass the far side, not its middle,
          // by more than the rounding of what is expected: an analyser's last digit.
          const middle = (advice.expect.min + advice.expect.max) / 2;
          if (advice.turns > 0) expect(middle).toBeLessThan(9.8);
          else expect(middle).toBeGreaterThan(8.6);
          // Inside its band CO2 is only ever lowered, where CO is too high at the top of it.
          expect(value < 8.7 || value > 9.7 || advice.turns < 0).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });
  it("waits are whole, never negative and never longer than the settle time, even with a clock that goes back", () => {
    fc.assert(
      fc.property(anyScript, fc.integer({ min: -100, max: 5000 }), (script, seconds) => {
        const { state, since } = play(script);
        const { advice } = judge(state, since, time(seconds));
        if (advice.action !== "wait") return;
        expect(advice.seconds).toBeGreaterThan(0);
        expect(advice.seconds).toBeLessThanOrEqual(60);
        expect(Number.isInteger(advice.seconds)).toBe(true);
      }),
    );
  });
});
