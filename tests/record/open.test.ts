import { describe, expect, test } from "vitest";
import { warnedIn } from "../../src/judge/raised.ts";
import { CLOSING_CHECKS } from "../../src/measure/firing.ts";
import { atEnd, openCount, openInShort, stillOpen } from "../../src/record/open.ts";
import { phaseLines } from "../../src/record/phases.ts";
import { byHand, mend, type OfPlace } from "../support/by-hand.ts";
import { sheet } from "../support/sheets.ts";
import { time } from "../support/visits.ts";

const PROVED = [
  "static gas pressure 7 inches",
  "high fire CO2 9.2, CO 40",
  "dynamic gas pressure 6 inches",
  "low fire CO2 9, CO 30",
];

describe("what is still open", () => {
  const open = (phrases: string[], done: OfPlace[] = []) => {
    const { visit, state } = byHand(phrases, done, { sheet: sheet({ closing: ["panel", "leak-check"] }) });
    return stillOpen(state, warnedIn(visit), time(4000)).map(({ name, sentences }) => [name, ...sentences]);
  };
  const closed = ["Not closed", "Check for gas leaks.", "Put the panel on."];
  test("all, at first", () =>
    expect(open([])).toEqual([["Not proved", "High fire was not read.", "Low fire was not read."], closed]));
  test("what was proved is not", () => expect(open(PROVED)).toEqual([closed]));
  test("nothing, in the end", () =>
    expect(open([...PROVED, "panel is on", "leak check done", "finish visit"])).toEqual([]));
  test("what was not understood, until it is settled", () => {
    const said = [...PROVED, "CO2 ninety two percent"];
    expect(open(said)).toEqual([["Not understood", "“CO2 ninety two percent”: CO2 cannot be 92 %."], closed]);
    expect(open(said, [{ kind: "leave-out", of: said.length + 1 }])).toEqual([closed]);
  });
  test("of many of one kind the first few, and how many more", () => {
    const many = (times: number) => {
      const said = Array.from({ length: times }, (_, i) => [`CO2 ninety two percent`, `note ${i}`]).flat();
      return open([...PROVED, ...said])[0]?.slice(1);
    };
    expect(many(60)).toHaveLength(60);
    expect(many(61)?.slice(-2)).toEqual([expect.stringMatching(/^“CO2/), "And 2 more."]);
  });
  test("of a sheet that wants every check all are told, the leak check first", () => {
    const { state, visit } = byHand([], [], { sheet: sheet({ closing: [...CLOSING_CHECKS] }) });
    const part = stillOpen(state, warnedIn(visit), time(0)).find(({ name }) => name === "Not closed");
    expect([part?.count, part?.sentences.length, part?.sentences[0]]).toEqual([7, 7, "Check for gas leaks."]);
  });
  test.each([
    [[]],
    [PROVED],
    [["room CO 80"]],
    [["I smell gas"]],
    [[...PROVED, "room CO 12", "CO2 ninety two percent", "finish visit"]],
    [["static gas pressure 30 inches", "high fire CO2 10.4, CO 300", "finish visit"]],
  ])("after %j the office counts as many as the record says", (phrases) => {
    const { visit, state } = byHand(phrases, [], { sheet: sheet({ closing: ["panel", "leak-check"] }) });
    const said = openInShort(false, stillOpen(state, warnedIn(visit), time(4000)));
    const count = openCount(atEnd(state, time(4000)));
    expect(said).toMatch(
      new RegExp(`^Not finished; ${count === 1 ? "one thing is" : `${count} things are`} open`),
    );
  });
  test("a danger that stands is no warning to acknowledge, and is open until it is over", () => {
    expect(open([...PROVED, "room CO 80", "acknowledged"])[0]?.[0]).toBe("Dangers that stand");
    expect(open([...PROVED, "room CO 80", "room CO 3", "acknowledged"])).toEqual([closed]);
  });
  test("what was warned of at the end stands among what is not proved or closed, not once more", () =>
    expect(open(["finish visit"])).toEqual(open([])));
  test("warnings that nobody took note of, each topic once", () => {
    const said = [...PROVED, "room CO 12", "room CO 13"];
    expect(open(said)).toEqual([
      ["Warnings not acknowledged", "Room CO 13. Look for the source."],
      ["Not proved", "Room CO is raised."],
      closed,
    ]);
    expect(open([...said, "acknowledged"])).toEqual([["Not proved", "Room CO is raised."], closed]);
  });
});

test.each<[finished: boolean, counts: number[], said: string]>([
  [false, [3, 5], "Not finished; 8 things are open."],
  [false, [1], "Not finished; one thing is open."],
  [false, [], "Not finished."],
  [true, [1, 1], "Finished; 2 things are open."],
  [true, [], ""],
])("before it is signed: finished %s, open %j: %s", (finished, counts, said) =>
  expect(
    openInShort(
      finished,
      counts.map((count) => ({ kind: "thing" as const, name: "", sentences: [], count })),
    ),
  ).toBe(said),
);

test.each<[finished: boolean, things: number, warnings: number, said: string]>([
  [true, 2, 1, "Finished; 2 things are open, one warning is not acknowledged."],
  [true, 0, 2, "Finished; 2 warnings are not acknowledged."],
  [false, 0, 1, "Not finished; one warning is not acknowledged."],
])("finished %s, %i things and %i warnings: %s", (finished, things, warnings, said) => {
  const part = (kind: "thing" | "warning", count: number) => ({ kind, name: "", sentences: [], count });
  expect(openInShort(finished, [part("thing", things), part("warning", warnings)])).toBe(said);
});

describe("as found beside as left", () => {
  const lines = (phrases: string[], done: OfPlace[] = []) =>
    phaseLines(byHand(phrases, done).state, time(4000)).map(({ name, limit, found, left }) => {
      const shown = (of: typeof found) => (of ? `${of.value} ${of.verdict ?? "-"} ${of.note}`.trim() : "-");
      return `${name}: ${shown(found)}, ${shown(left)}, ${limit || "-"}`;
    });
  test("nothing read, nothing shown", () => expect(lines(["high fire"])).toEqual([]));
  test("the last before a turn, and what stands at the end, each with its verdict", () =>
    expect(lines(["high fire CO2 8.3, CO 40", "CO2 8.4", "half in", "CO2 9.1"])).toEqual([
      "CO2, high fire: 8.4 % fail 8.3 % out of limits before it, 9.1 % pass, 8.7 to 9.7 %",
      "CO, high fire: 40 ppm pass, 40 ppm pass before the last turn, up to 175 ppm",
    ]));
  test("high fire left out of limits before low fire was turned is shown as left, and said to be from before", () =>
    expect(lines(["high fire CO2 8.3", "low fire CO2 8.2", "quarter in", "CO2 9"])).toEqual([
      "CO2, high fire: 8.3 % fail, 8.3 % fail before the last turn, 8.7 to 9.7 %",
      "CO2, low fire: 8.2 % -, 9 % -, -",
    ]));
  test("what was read of low fire after the high-fire screw was turned was not found", () =>
    expect(lines(["high fire CO2 8.3", "half in", "low fire CO2 8.3", "quarter in", "CO2 9"])[1]).toBe(
      "CO2, low fire: -, 9 % -, -",
    ));
  test.each([
    ["none above", "12, 5", "12 ppm -, 5 ppm -"],
    ["the last is the highest", "12, 5, 80", "12 ppm -, 80 ppm -"],
    ["the first is", "80, 12, 5", "80 ppm -, 5 ppm -"],
    ["one in between is", "12, 80, 30, 5", "12 ppm -, 5 ppm - highest 80 ppm at 08:03:20"],
    ["the same twice: the first time", "12, 80, 80, 5", "12 ppm -, 5 ppm - highest 80 ppm at 08:03:20"],
  ])("room CO was found as read first and left as read last; %s", (_, ppm, shown) =>
    expect(lines(ppm.split(", ").map((each) => `room CO ${each}`))).toEqual([
      `Room CO: ${shown}, warned from 9 ppm`,
    ]),
  );
  test("room CO is limited by no sheet, and says from where on it is warned of", () =>
    expect(lines(["room CO 3"])).toEqual(["Room CO: 3 ppm -, 3 ppm -, warned from 9 ppm"]));
  test("gas pressure first, with its condition in the name", () =>
    expect(lines(["room CO 3", "static gas pressure 7 inches"])[0]).toMatch(
      /^Static inlet gas pressure: 7 in\. w\.c\. /,
    ));
  test("a mend of what was found changes what was found", () =>
    expect(lines(["high fire CO2 8.3", "half in", "CO2 9.1"], [mend(0, "8.8")])).toEqual([
      "CO2, high fire: 8.8 % pass, 9.1 % pass, 8.7 to 9.7 %",
    ]));
});
