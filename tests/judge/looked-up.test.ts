import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { companion, current, latest, settled } from "../../src/judge/current.ts";
import { countBefore, readingsOf } from "../../src/judge/looked-up.ts";
import { settleLeft, settlingOf, tooEarly } from "../../src/judge/settle.ts";
import { type Situation, situationOf } from "../../src/judge/situation.ts";
import { Firing } from "../../src/measure/firing.ts";
import { epochMs } from "../../src/measure/instant.ts";
import { QUANTITY_IDS, type QuantityId } from "../../src/measure/quantity.ts";
import type { StandingReading } from "../../src/visit/state.ts";
import { anyScript } from "../support/arbitrary.ts";
import { play } from "../support/visits.ts";

// What is looked up is what going through the whole visit finds: the same, said plainly and slowly.

const FIRINGS = [...Firing.options, null];

/** Every situation of a random visit at its end. */
const anySituation = anyScript.map((script): Situation => {
  const { state, since, now } = play(script);
  return situationOf(state, since, now);
});

const allOf = (s: Situation, quantity: QuantityId, firing: Firing | null) =>
  s.state.readings.filter((r) => r.reading.quantity === quantity && r.reading.firing === firing);

const always = (holds: (s: Situation) => void) =>
  fc.assert(fc.property(anySituation, holds), { numRuns: 200 });

/** As the settle time is defined: over every clock that was started before, from where the device's was set back since. */
function slowlyLeft({ state }: Situation, at: string, seq: number, firing: Firing | null): number {
  const settle = state.head.sheet?.settleSeconds;
  if (!settle) return 0;
  const clocks = [
    ...state.adjustments.map((a) => ({ seq: a.seq, at: a.at, seconds: settle[a.adjuster] })),
    ...state.marks
      .filter(({ mark }) => mark === "timer-start")
      .map((m) => ({ seq: m.seq, at: m.at, seconds: settle[firing ?? "high"] })),
  ];
  const left = clocks
    .filter((clock) => clock.seq < seq)
    .map((clock) => {
      const since = state.setBacks.filter((back) => back.seq > clock.seq && back.seq < seq);
      const from = Math.min(...[clock, ...since].map((one) => epochMs(one.at)));
      return clock.seconds - Math.max(0, epochMs(at) - from) / 1000;
    });
  return Math.max(0, ...left);
}

describe("always", () => {
  it("readings of a kind are all of that kind, in order", () =>
    always((s) => {
      for (const quantity of QUANTITY_IDS)
        for (const firing of FIRINGS) {
          expect(readingsOf(s.state, quantity, firing)).toEqual(allOf(s, quantity, firing));
          expect(latest(s, quantity, firing)).toBe(allOf(s, quantity, firing).at(-1) ?? null);
        }
    }));
  it("the settle time left is the longest of all clocks", () =>
    always((s) => {
      for (const r of s.state.readings) {
        const { at, seq, reading } = r;
        expect(settleLeft(s, at, seq, reading.firing)).toBeCloseTo(slowlyLeft(s, at, seq, reading.firing), 9);
      }
      const firing = s.state.firing?.firing ?? null;
      expect(settleLeft(s)).toBeCloseTo(slowlyLeft(s, s.now, s.state.nextSeq, firing), 9);
      const until = settlingOf(s.state)?.until;
      if (until) expect(slowlyLeft(s, until, s.state.nextSeq, firing)).toBeCloseTo(0, 9);
    }));
  it("settled readings are those that did not come too early, and the current one the last since its screw was touched", () =>
    always((s) => {
      for (const quantity of ["co2", "co", "o2"] as const)
        for (const firing of Firing.options) {
          const list = allOf(s, quantity, firing).filter((r) => tooEarly(s, r) === 0);
          expect(settled(s, quantity, firing)).toEqual(list);
          const touches = s.state.adjustments.filter(
            ({ adjuster }) => adjuster === "high" || firing === "low",
          );
          const after = touches.at(-1)?.seq ?? -1;
          expect(current(s, quantity, firing)).toBe(list.findLast((r) => r.seq > after) ?? null);
        }
    }));
  it("a companion is the nearest of one breath, else the nearest with no touch between", () =>
    always((s) => {
      const touched = (a: number, b: number) =>
        s.state.adjustments.some(({ seq }) => Math.min(a, b) < seq && seq < Math.max(a, b));
      for (const r of s.state.readings) {
        for (const quantity of ["co2", "co", "o2"] as const) {
          const others = allOf(s, quantity, r.reading.firing).filter(({ seq }) => !touched(seq, r.seq));
          const near = (list: readonly StandingReading[]) =>
            Math.min(...list.map(({ seq }) => Math.abs(seq - r.seq)));
          const found = companion(s, r, quantity);
          if (others.length === 0) expect(found).toBeNull();
          else if (found?.at !== r.at) expect(Math.abs((found?.seq ?? 0) - r.seq)).toBe(near(others));
          // Said in one breath: entries that follow one another.
          const breath = others.filter(({ at, seq }) => at === r.at && Math.abs(seq - r.seq) <= 1);
          if (breath.length > 0) expect(found?.at).toBe(r.at);
        }
      }
    }));
});

test.each<[seq: number, expected: number]>([
  [0, 0],
  [2, 0],
  [3, 1],
  [4, 1],
  [5, 2],
  [9, 3],
])("of the places 2, 4 and 7, so many come before %i: %i", (seq, expected) => {
  expect(countBefore([{ seq: 2 }, { seq: 4 }, { seq: 7 }], seq)).toBe(expected);
});
