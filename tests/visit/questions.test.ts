import { describe, expect, it } from "vitest";
import type { Item, Unsure } from "../../src/meaning/item.ts";
import { openQuestion } from "../../src/visit/questions.ts";
import { shortItem } from "../support/short.ts";
import { spokenLog } from "../support/spoken-log.ts";
import {
  check,
  co,
  co2,
  command,
  high,
  low,
  note,
  o2,
  play,
  replace,
  type Said,
  strike,
  turn,
  unsure,
} from "../support/visits.ts";

const missing = (question: NonNullable<Unsure["question"]>, ...candidates: Item[]): Unsure => ({
  ...unsure("asked", ...candidates),
  question,
});
const howMuch = missing({ asks: "value", quantity: "co2", firing: null, condition: null });
const ofWhat = missing({ asks: "quantity", value: 9.2, unit: null });
const whichWay = missing(
  { asks: "way", adjuster: "low", turns: 0.25 },
  turn(0.25, "low"),
  turn(-0.25, "low"),
);
const yes = command("yes");
const no = command("no");
const strikeTurn: Item = { kind: "strike", last: "adjustment" };
const named = (item: Item, quantity: "co" | "co2"): Item =>
  item.kind === "replace" ? { ...item, quantity } : item;

/** What is asked after these utterances, ten seconds apart: what is missing, or the first candidate; "-" where nothing is. */
function open(...utterances: (Item | Unsure)[][]): string {
  const script = utterances.map((things, i): Said => [10 * i, ...things]);
  const asked = openQuestion(play(script).state)?.unsure;
  if (!asked) return "-";
  const [first] = asked.candidates;
  return asked.question ? asked.question.asks : first ? shortItem(first) : "nothing";
}

function log(...utterances: (Item | Unsure)[][]): string {
  return spokenLog(play(utterances.map((things, i): Said => [10 * i, ...things])).visit);
}

describe("what is open", () => {
  const asked = [unsure("ninety two", co2(9.2))];
  const cases: [string, (Item | Unsure)[][], string][] = [
    ["a question for what is missing", [[howMuch]], "value"],
    ["a piece that nothing can answer opens none", [[unsure("mumble")]], "-"],
    ["nor one that may have been a command", [[unsure("finish", command("finish-visit"))]], "-"],
    ["and leaves the open one", [[howMuch], [unsure("mumble")]], "value"],
    ["yes to what is missing leaves it", [[howMuch], [yes]], "value"],
    ["no closes it", [[howMuch], [no]], "-"],
    ["scratch that closes it", [[howMuch], [strike]], "-"],
    ["its reading closes it", [[howMuch], [co2(9)]], "-"],
    ["another reading closes it", [[howMuch], [co(40)]], "-"],
    ["a turn closes it", [[howMuch], [turn(0.1, "high")]], "-"],
    ["a firing closes it", [asked, [high]], "-"],
    ["a note closes it", [asked, [note("gasket")]], "-"],
    ["a check closes it", [asked, [check("panel", false)]], "-"],
    ["a mark closes it", [asked, [command("mark-as-left")]], "-"],
    ["read back leaves it", [asked, [command("read-back")]], "co2 9.2 %"],
    ["another question takes its place", [asked, [ofWhat], [no]], "-"],
    ["the same question takes its place", [[howMuch], [howMuch], [no]], "-"],
    ["what the same breath logs leaves it", [[turn(0.5), co2(9)]], "screw"],
    ["no brings the next candidate", [[unsure("two ten", co2(10), co(210))], [no]], "co 210 [ppm]"],
    ["no to the last brings nothing", [[unsure("two ten", co2(10), co(210))], [no], [no]], "-"],
    ["no to which way drops it, candidates and all", [[whichWay], [no]], "-"],
    ["two of one breath: the last first", [[...asked, unsure("forty", co(40))]], "co 40 [ppm]"],
    ["then the other", [[...asked, unsure("forty", co(40))], [no]], "co2 9.2 %"],
    ["also after the value", [[...asked, unsure("forty", co(40))], [co(50)]], "co2 9.2 %"],
    [
      "also after a value that cannot be",
      [[...asked, unsure("forty", co(40))], [unsure("?", co(41))]],
      "co 41 [ppm]",
    ],
    ["and its yes", [[...asked, unsure("forty", co(40))], [unsure("?", co(41))], [yes]], "co2 9.2 %"],
    [
      "a turn asked about again leaves the other turn",
      [
        [unsure("a", turn(0.1, "high")), unsure("b", turn(0.2, "low"))],
        [unsure("c", turn(0.3, "low"))],
        [no],
      ],
      "turn high 0.1",
    ],
    ["a value that the quantity cannot have", [[co2(200)]], "value"],
    ["a turn of no known screw", [[turn(0.5)]], "screw"],
  ];
  it.each(cases)("%s", (_name, utterances, expected) => expect(open(...utterances)).toBe(expected));
});

describe("what an answer logs", () => {
  const cases: [string, (Item | Unsure)[][], string][] = [
    ["yes to what is missing: nothing", [[howMuch], [yes]], ""],
    ["yes to which way: nothing, though it has candidates", [[whichWay], [yes]], ""],
    [
      "yes to of what: nothing, where it can be two",
      [[{ ...ofWhat, candidates: [co2(9.2), o2(9.2)] }], [yes]],
      "",
    ],
    [
      "yes to of what, where it can be only one",
      [[{ ...ofWhat, candidates: [co2(9.2)] }], [yes]],
      "C O 2 nine point two",
    ],
    [
      "no, nine point four, to how much",
      [[co2(8)], [howMuch], [replace(9.4)]],
      "C O 2 eight; C O 2 nine point four",
    ],
    ["no, two hundred, which CO2 cannot be", [[co2(8)], [howMuch], [replace(200)]], "C O 2 eight"],
    [
      "a named mend of another quantity goes to that one",
      [[co(40)], [howMuch], [named(replace(50), "co")]],
      "C O fifty",
    ],
    ["no, nine point four, to of what", [[co2(8)], [ofWhat], [replace(9.4)]], "C O 2 eight"],
    [
      "no, CO2 nine point two, to of what: that number",
      [[co2(8)], [ofWhat], [named(replace(9.2), "co2")]],
      "C O 2 eight; C O 2 nine point two",
    ],
    [
      "no, CO2 nine point four, to of what: an older reading's",
      [[co2(8)], [ofWhat], [named(replace(9.4), "co2")]],
      "C O 2 nine point four",
    ],
    ["no, half, to which way: no reading", [[co2(8)], [whichWay], [replace(0.5)]], "C O 2 eight"],
    [
      "clockwise, to which way: of the screw that was said",
      [[high], [whichWay], [turn(0.25)]],
      "high fire; low fire screw a quarter turn clockwise",
    ],
    [
      "a named mend goes to the last of its quantity",
      [[co(40), co2(9)], [named(replace(50), "co")]],
      "C O fifty; C O 2 nine",
    ],
    ["or is a reading of its own", [[co2(9)], [named(replace(50), "co")]], "C O 2 nine; C O fifty"],
    ["or nothing, where it cannot be", [[co2(9)], [named(replace(50_000), "co")]], "C O 2 nine"],
    ["a named mend in tenths of what has none", [[co(40)], [named(replace(9.2), "co")]], "C O forty"],
    ["strike of the last turn", [[turn(0.1, "high"), co2(9)], [strikeTurn]], "C O 2 nine"],
    ["no turn: nothing is struck", [[co2(9)], [strikeTurn]], "C O 2 nine"],
    [
      "a struck turn is not struck again",
      [[turn(0.1, "high"), turn(0.2, "low"), co2(9)], [strikeTurn], [strikeTurn]],
      "C O 2 nine",
    ],
    ["yes with the number again: once", [[unsure("?", co2(9.2))], [yes, co2(9.2)]], "C O 2 nine point two"],
    ["yes with another number: that", [[unsure("?", co2(9.2))], [yes, co2(9.3)]], "C O 2 nine point three"],
    [
      "yes with another quantity: both",
      [[unsure("?", co2(9.2))], [yes, o2(5)]],
      "C O 2 nine point two; oxygen five",
    ],
    [
      "yes with the other firing: both",
      [[unsure("?", co2(9.2, "high"))], [yes, co2(9, "low")]],
      "C O 2 nine point two; C O 2 nine",
    ],
    [
      "yes with the turn again: once",
      [[unsure("?", turn(0.1, "low"))], [yes, turn(0.1, "low")]],
      "low fire screw a tenth of a turn clockwise",
    ],
    [
      "yes to a bad mend, with the value",
      [[co2(8)], [replace(92)], [yes, co2(9.3)]],
      "C O 2 nine point three",
    ],
    ["the value for a bad mend", [[co2(8)], [replace(92)], [co2(9.3)]], "C O 2 nine point three"],
    [
      "a reading of the other firing is none",
      [[co2(8, "high")], [replace(92)], [co2(9, "low")]],
      "C O 2 eight; C O 2 nine",
    ],
    ["a check that is not done", [[low], [check("low-fire-cap", false)]], "low fire; low fire cap is off"],
  ];
  it.each(cases)("%s", (_name, utterances, expected) => expect(log(...utterances)).toBe(expected));
});
