import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Entry } from "../../src/visit/entry.ts";
import { Entry as EntrySchema } from "../../src/visit/entry.ts";
import { foldVisit, startState, step, withEntries } from "../../src/visit/fold.ts";
import { phasesOf } from "../../src/visit/phase.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { anyScript } from "../support/arbitrary.ts";
import {
  check,
  co2,
  command,
  high,
  low,
  play,
  replace,
  room,
  type Said,
  strike,
  time,
  turn,
} from "../support/visits.ts";

const stateOf = (...script: Said[]) => play(script).state;

describe("the firing mode", () => {
  const cases: [string, Said[], unknown][] = [
    ["unknown at first", [], null],
    ["as said, since then", [[5, high]], { firing: "high", since: time(5) }],
    [
      "said again changes nothing",
      [
        [5, high],
        [9, high],
      ],
      { firing: "high", since: time(5) },
    ],
    [
      "the other one",
      [
        [5, high],
        [9, low],
      ],
      { firing: "low", since: time(9) },
    ],
    ["said with a reading", [[5, co2(9, "low")]], { firing: "low", since: time(5) }],
    [
      "struck: back to the one before",
      [
        [5, high],
        [9, low],
        [10, strike],
      ],
      { firing: "high", since: time(5) },
    ],
    [
      "out of test mode it is unknown",
      [
        [5, high],
        [9, check("test-mode-off")],
      ],
      null,
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(stateOf(...script).firing).toEqual(expected));
});

describe("as found, trial, as left", () => {
  /** "as found / trials / as left" of CO2 at high fire. */
  const phases = (...script: Said[]) => {
    const row = phasesOf(stateOf(...script)).find((p) => p.quantity === "co2" && p.firing === "high");
    const values = (list: readonly { reading: { value: number } }[] = []) =>
      list.map((r) => r.reading.value).join(" ");
    return `${row?.asFound?.reading.value ?? "-"}/${values(row?.trials)}/${row?.asLeft?.reading.value ?? "-"}`;
  };
  const cases: [string, Said[], string][] = [
    ["nothing turned: found is left", [[0, high, co2(8.4)]], "8.4//8.4"],
    [
      "two before the first turn",
      [
        [0, high, co2(8.4)],
        [9, co2(8.5)],
        [20, turn(1)],
      ],
      "8.5/8.4/-",
    ],
    [
      "one turn",
      [
        [0, high, co2(8.4)],
        [20, turn(1)],
        [90, co2(8.8)],
      ],
      "8.4//8.8",
    ],
    [
      "two turns",
      [
        [0, high, co2(8.4)],
        [20, turn(1)],
        [90, co2(8.6)],
        [99, turn(1)],
        [200, co2(9)],
      ],
      "8.4/8.6/9",
    ],
    [
      "the other screw moves it too",
      [
        [0, high, co2(9)],
        [9, low],
        [20, turn(0.1)],
      ],
      "9//-",
    ],
    [
      "a struck turn never was",
      [
        [0, high, co2(8.4)],
        [20, turn(1)],
        [21, strike],
      ],
      "8.4//8.4",
    ],
    [
      "marked as found after a trial turn",
      [
        [0, high, turn(1)],
        [90, co2(9)],
        [91, command("mark-as-found")],
      ],
      "9//9",
    ],
    [
      "marked as left: later readings are not",
      [
        [0, high, co2(9)],
        [1, command("mark-as-left")],
        [9, co2(5)],
      ],
      "9/5/9",
    ],
    [
      "mark as left, then turned: it no longer holds",
      [
        [0, high, co2(9)],
        [1, command("mark-as-left")],
        [2, turn(1)],
        [90, co2(9.3)],
      ],
      "9//9.3",
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(phases(...script)).toBe(expected));

  it("a turn does not touch the room's reading: found as read first, left as read last", () => {
    const script: Said[] = [
      [0, high, room(12)],
      [9, turn(1)],
      [20, room(80)],
      [30, room(5)],
    ];
    const row = phasesOf(stateOf(...script)).find((p) => p.quantity === "co-ambient");
    const values = [row?.asFound, ...(row?.trials ?? []), row?.asLeft].map((r) => r?.reading.value);
    expect(values).toEqual([12, 80, 5]);
  });
  it("low fire read after the high-fire screw was turned is not as found", () => {
    const script: Said[] = [
      [0, high, co2(8.4)],
      [9, turn(1)],
      [20, low, co2(8.3, "low")],
      [30, turn(0.1)],
    ];
    const row = phasesOf(stateOf(...script)).find((p) => p.firing === "low");
    expect([row?.asFound, row?.trials.length, row?.asLeft]).toEqual([null, 1, null]);
  });
});

describe("checks, touches, finish", () => {
  it("keeps the last word on a check", () => {
    expect(stateOf([0, check("panel")], [1, check("panel", false)]).checks).toEqual({ panel: false });
  });
  it("knows the last touch of each screw and the firing it was made in", () => {
    const { lastTouch } = stateOf([0, high, turn(1)], [9, low, turn(-0.1)], [20, turn(0.25, "high")]);
    expect([lastTouch.high, lastTouch.low]).toMatchObject([
      { turns: 0.25, firing: "low", at: time(20) },
      { turns: -0.1, firing: "low", at: time(9) },
    ]);
  });
  const finished: [string, Said[], boolean][] = [
    ["said", [[0, command("finish-visit")]], true],
    [
      "a check afterwards leaves it so",
      [
        [0, command("finish-visit")],
        [1, check("panel")],
      ],
      true,
    ],
    [
      "work afterwards takes it back",
      [
        [0, command("finish-visit")],
        [1, high],
      ],
      false,
    ],
    [
      "struck",
      [
        [0, command("finish-visit")],
        [1, strike],
      ],
      false,
    ],
  ];
  it.each(finished)("finished: %s", (_name, script, expected) =>
    expect(stateOf(...script).finished).toBe(expected),
  );
});

describe("always", () => {
  it("prefix and rest make the whole", () => {
    fc.assert(
      fc.property(anyScript, fc.nat(), (script, cut) => {
        const { visit } = play(script);
        const at = cut % (visit.entries.length + 1);
        const prefix = foldVisit({ ...visit, entries: visit.entries.slice(0, at) });
        expect(visit.entries.slice(at).reduce(step, prefix)).toEqual(foldVisit(visit));
      }),
    );
  });
  it("going on from what was known is the same as from scratch, phrase by phrase", () => {
    fc.assert(
      fc.property(anyScript, fc.integer({ min: 1, max: 4 }), (script, together) => {
        const { visit } = play(script);
        let longer: Visit = { ...visit, entries: [] };
        for (let at = 0; at < visit.entries.length; at += together) {
          longer = withEntries(longer, visit.entries.slice(at, at + together));
          const scratch = foldVisit({ ...visit, entries: visit.entries.slice(0, at + together) });
          expect(foldVisit(longer)).toEqual(scratch);
        }
        expect(longer.entries).toEqual(visit.entries);
      }),
    );
  });
  it("replaying gives the same state, from JSON too", () => {
    fc.assert(
      fc.property(anyScript, (script) => {
        const { visit, state } = play(script);
        expect(foldVisit(JSON.parse(JSON.stringify(visit)))).toEqual(state);
      }),
    );
  });
  it("a strike or replacement loses no old entry: every value ever logged is still there", () => {
    fc.assert(
      fc.property(anyScript, (script) => {
        const { visit, state } = play(script);
        const kept = state.items.flatMap((item) => [...item.history, item.body]);
        for (const { body } of visit.entries) {
          if (body.kind === "reading") expect(kept).toContainEqual(body);
          if (body.kind === "replace") expect(kept).toContainEqual(body.with);
        }
        expect(visit.entries.map((entry) => entry.seq)).toEqual(visit.entries.map((_, i) => i));
      }),
    );
  });
  it("every entry fits its schema", () => {
    fc.assert(
      fc.property(anyScript, (script) => {
        for (const entry of play(script).visit.entries) expect(() => EntrySchema.parse(entry)).not.toThrow();
      }),
    );
  });
  it("corrections with strange targets change nothing", () => {
    const { state, visit } = play([[0, high, co2(9)]]);
    const [first] = visit.entries;
    if (!first) throw new Error("no entry");
    const odd = (body: Entry["body"]): Entry => ({ ...first, id: "x", seq: 9, body });
    const after = step(state, odd({ kind: "strike", target: "nobody" }));
    expect(after.items).toEqual(state.items);
    const onNobody = odd({ kind: "replace", target: "nobody", with: replaceWith() });
    expect(step(state, onNobody).items).toEqual(state.items);
    expect(startState(visit.head).readings).toEqual([]);
  });
});

function replaceWith() {
  const reading = play([
    [0, co2(9)],
    [1, replace(9.1)],
  ]).state.readings[0]?.reading;
  if (!reading) throw new Error("no reading");
  return reading;
}
