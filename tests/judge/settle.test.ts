import { describe, expect, it } from "vitest";
import { settlingOf } from "../../src/judge/settle.ts";
import { judged } from "../support/judged.ts";
import { sheet } from "../support/sheets.ts";
import { co2, command, high, play, type Said, strike, time, turn } from "../support/visits.ts";

describe("settling", () => {
  const next = (script: Said[]) => judged(script, { sheet: sheet() }).next;
  it("after a change of firing it is said, and is no verdict", () => {
    expect(next([[0, high]])).toBe("Let it settle, then read C O 2.");
    const { verdicts, warnings } = judged(
      [
        [0, high],
        [2, co2(9.2)],
      ],
      { sheet: sheet() },
    );
    expect(verdicts).toMatchObject([{ verdict: "pass" }]);
    expect(warnings).toEqual([]);
  });
  it("once something was read it is not said again", () => {
    expect(next([[0, high, co2(9.2)]])).toBe("Read C O.");
  });

  const ready = (script: Said[]) => settlingOf(play(script).state)?.until ?? null;
  const cases: [string, Said[], string | null][] = [
    ["nothing was touched", [[0, high, co2(9)]], null],
    ["a minute after a touch", [[10, high, turn(0.5)]], time(70)],
    [
      "the last touch counts",
      [
        [10, high, turn(0.5)],
        [30, turn(0.25)],
      ],
      time(90),
    ],
    [
      "a struck touch does not",
      [
        [10, high, turn(0.5)],
        [30, turn(0.25)],
        [31, strike],
      ],
      time(70),
    ],
    [
      "start the clock",
      [
        [10, high, turn(0.5)],
        [40, command("start-timer")],
      ],
      time(100),
    ],
  ];
  const setBack: [string, Said[], string | null][] = [
    [
      "a clock set back by an hour, and something logged since: a whole settle time from there, no more",
      [
        [3700, high, turn(0.5)],
        [110, co2(9.4)],
      ],
      time(170),
    ],
    [
      "a touch after it counts from its own time",
      [
        [3700, high, turn(0.5)],
        [110, co2(9.4)],
        [130, turn(0.25)],
      ],
      time(190),
    ],
    [
      "the touch itself is the first that is earlier",
      [
        [3700, high, turn(0.5)],
        [110, turn(0.25)],
      ],
      time(170),
    ],
    [
      "by a few seconds: clocks are put right all the time",
      [
        [100, high, turn(0.5)],
        [97, co2(9.4)],
      ],
      time(160),
    ],
    [
      "set forward nobody can tell from time that went by",
      [
        [10, high, turn(0.5)],
        [3700, co2(9.4)],
      ],
      time(70),
    ],
  ];
  it("a reading is judged again a settle time after the clock was set back, not an hour later", () => {
    const verdictsOf = (at: number) =>
      judged(
        [
          [3700, high, turn(0.5)],
          [110, co2(9.2)],
          [at, co2(9.2)],
        ],
        { sheet: sheet() },
      ).verdicts;
    expect(verdictsOf(150)).toMatchObject([{ verdict: "wait" }]);
    expect(verdictsOf(171)).toMatchObject([{ verdict: "pass" }]);
  });
  it.each([...cases, ...setBack])("ready: %s", (_name, script, at) => expect(ready(script)).toBe(at));
});
