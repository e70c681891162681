import { describe, expect, test } from "vitest";
import {
  fieldsOf,
  type ReviewThing,
  shownOf,
  sureness,
  thingsOf,
  utterances,
} from "../../../src/app/afterwards/rows.ts";
import type { Amendment } from "../../../src/visit/by-hand.ts";
import { byHand, mend, type OfPlace } from "../../support/by-hand.ts";

/** The things of a visit after phrases and corrections by hand, utterance by utterance. */
function things(phrases: readonly string[], done: readonly (OfPlace | Amendment)[] = []): ReviewThing[][] {
  const { visit, state } = byHand(phrases, done);
  const shown = shownOf(visit, state, new Map(), { verdicts: new Map(), rivals: () => [] });
  return utterances(visit).map((together) => thingsOf(together, shown));
}

/** "understood (fate)" of each. */
const lines = (...of: Parameters<typeof things>) =>
  things(...of).map((each) =>
    each.map(({ understood, fate }) => {
      const then =
        fate.kind === "mended" ? `now ${fate.now}` : fate.kind === "settled" ? fate.how : fate.kind;
      return `${understood} (${then})`;
    }),
  );

describe("what was understood then, and what became of it", () => {
  const percent = "CO2 ninety two percent";
  test.each<[what: string, phrases: string[], done: (OfPlace | Amendment)[], expected: string[][]]>([
    [
      "two readings of one phrase",
      ["high fire CO2 9.2, CO 40"],
      [],
      [["CO2 9.2 %, high fire (stands)", "CO 40 ppm, high fire (stands)"]],
    ],
    [
      "mended by voice: the old value stays to be seen",
      ["CO2 9.2", "no, 9.4"],
      [],
      [["CO2 9.2 % (now CO2 9.4 %)"], ["Mended: CO2 9.4 %, of 08:01:40 (stands)"]],
    ],
    [
      "mended by hand",
      ["CO2 9.2"],
      [mend(0, "9.4")],
      [["CO2 9.2 % (now CO2 9.4 %)"], ["Mended: CO2 9.4 %, of 08:01:40 (stands)"]],
    ],
    [
      "struck by hand",
      ["CO2 9.2"],
      [{ kind: "strike", of: 0 }],
      [["CO2 9.2 % (struck)"], ["Struck: CO2 9.2 % (stands)"]],
    ],
    [
      "put back",
      ["CO2 9.2"],
      [
        { kind: "strike", of: 0 },
        { kind: "put-back", of: 0 },
      ],
      [["CO2 9.2 % (stands)"], ["Struck: CO2 9.2 % (stands)"], ["Mended: CO2 9.2 %, of 08:01:40 (stands)"]],
    ],
    ["not understood", [percent], [], [["Not logged: CO2 cannot be 92 % (open)"]]],
    [
      "told by hand",
      [percent],
      [mend(0, "9.2")],
      [["Not logged: CO2 cannot be 92 % (now CO2 9.2 %)"], ["It was: CO2 9.2 %, of 08:01:40 (stands)"]],
    ],
    [
      "left out",
      [percent],
      [{ kind: "leave-out", of: 0 }],
      [["Not logged: CO2 cannot be 92 % (left out)"], ["No to the question (stands)"]],
    ],
    [
      "answered",
      [percent, "yes"],
      [],
      [
        ["Not logged: CO2 cannot be 92 % (yes was said to it)"],
        ["Yes to the question (stands)", "CO2 9.2 % (stands)"],
      ],
    ],
    [
      "looked through",
      ["CO 40"],
      [{ kind: "review", by: "Ada Quill" }],
      [["CO 40 ppm (stands)"], ["Looks right: Ada Quill, 25 Nov 2026, 09:00 (stands)"]],
    ],
  ])("%s", (_, phrases, done, expected) => expect(lines(phrases, done)).toEqual(expected));

  test("a correction cannot itself be corrected, only what it corrected", () => {
    expect(things(["CO2 9.2"], [mend(0, "9.4")]).map((each) => each.map(({ own }) => own))).toEqual([
      [true],
      [false],
    ]);
  });
  test("what was not understood has what it may have been to pick", () => {
    expect(things([percent])[0]?.[0]?.picks.map(({ label }) => label)).toEqual(["CO2 9.2 %"]);
    // What was picked is offered no more.
    expect(things([percent], [mend(0, "9.2")])[0]?.[0]?.picks).toEqual([]);
  });
});

describe("said or assumed, field by field", () => {
  const fields = (phrases: string[]) => {
    const body = byHand(phrases, []).state.items.at(-1)?.body;
    return body ? fieldsOf(body).map(({ name, value, origin }) => `${name} ${value} ${origin}`) : [];
  };
  test.each<[phrases: string[], expected: string[]]>([
    [["high fire CO2 9.2"], ["Quantity CO2 said", "Value 9.2 said", "Firing High fire said"]],
    [
      ["high fire", "CO2 9.2"],
      ["Quantity CO2 said", "Value 9.2 said", "Firing High fire assumed"],
    ],
    [
      ["gas pressure 7"],
      ["Quantity Inlet gas pressure said", "Value 7 said", "Unit in. w.c. assumed", "Burner static assumed"],
    ],
    [
      ["high fire", "quarter in"],
      ["Screw High-fire screw assumed", "Turned ¼ turn clockwise said"],
    ],
    [["panel is on"], ["Panel back on done said"]],
    [["note a b c"], []],
  ])("%s", (phrases, expected) => expect(fields(phrases)).toEqual(expected));
});

describe("the fields of what was mended", () => {
  const shown = (phrases: string[], done: OfPlace[] = []) =>
    things(phrases, done)[0]?.[0]?.fields.map(
      ({ name, value, isOld }) => `${isOld ? "not " : ""}${name} ${value}`,
    );
  test.each<[phrases: string[], done: OfPlace[], expected: string[]]>([
    [["high fire CO2 9.2"], [], ["Quantity CO2", "Value 9.2", "Firing High fire"]],
    [
      ["high fire CO2 9.9"],
      [mend(0, "9.8")],
      ["Quantity CO2", "not Value 9.9", "Value 9.8", "Firing High fire"],
    ],
    [
      ["high fire CO2 9.9", "no, low fire"],
      [],
      ["Quantity CO2", "Value 9.9", "not Firing High fire", "Firing Low fire"],
    ],
    // What was struck stands with what it was.
    [["high fire CO2 9.9"], [{ kind: "strike", of: 0 }], ["Quantity CO2", "Value 9.9", "Firing High fire"]],
  ])("%s", (phrases, done, expected) => expect(shown(phrases, done)).toEqual(expected));
});

test.each<[engine: Parameters<typeof sureness>[0], confidence: number, words: string | null]>([
  ["offline", 1, "sure, 100 %"],
  ["offline", 0.97, "sure, 97 %"],
  ["offline", 0.969, "quite sure, 96 %"],
  ["offline", 0.92, "quite sure, 92 %"],
  ["platform", 0.919, "less sure, 91 %"],
  ["platform", 0.85, "less sure, 85 %"],
  ["platform", 0.849, "unsure, 84 %"],
  ["typed", 1, null],
])("%s %f: %s", (engine, confidence, words) => expect(sureness(engine, confidence)).toBe(words));
