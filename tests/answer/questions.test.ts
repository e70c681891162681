import { describe, expect, it } from "vitest";
import { dialogue } from "../support/dialogue.ts";

/** What the last of these phrases is answered with, and what stands in the log after it. */
function talk(...phrases: string[]): { answer: string; log: string } {
  const { answer, log } = dialogue(phrases);
  return { answer, log };
}

describe("what is missing is asked for in one short question", () => {
  it.each([
    [["CO2"], "C O 2: how much?"],
    [["static gas pressure"], "Static inlet gas pressure: how much?"],
    [["nine point two"], "Nine point two of what?"],
    [["nine two"], "C O 2 nine point two?"],
    [["ninety two"], "Ninety two of what?"],
    [["forty parts per million"], "Forty parts per million of what?"],
    [["quarter turn"], "A quarter turn: clockwise or counterclockwise?"],
    [["low screw a quarter"], "Low fire screw a quarter turn: clockwise or counterclockwise?"],
    [["quarter turn clockwise"], "A quarter turn of which screw: high or low?"],
    [["CO two ten"], "C O 2 ten?"],
    [["CO2 ninety two"], "C O 2 nine point two?"],
    [["CO over two hundred"], "C O: how much?"],
    [["fifty four hundred"], "Fan speed five thousand four hundred?"],
    [["fan fifty four"], "Fan speed five thousand four hundred?"],
    [["meter time"], "Meter time: how much?"],
  ])("%j", (phrases, question) => expect(talk(...phrases)).toEqual({ answer: question, log: "" }));
});

describe("and the answer to it is logged", () => {
  it.each([
    [["CO2", "nine point two"], "C O 2 nine point two"],
    [["CO2", "nine two"], "C O 2 nine point two"],
    [["nine point two", "CO2"], "C O 2 nine point two"],
    [["forty ppm", "room CO"], "room C O forty"],
    [["static gas pressure", "seven inches"], "static inlet gas pressure seven inches of water"],
    [["quarter turn", "clockwise", "high"], "high fire screw a quarter turn clockwise"],
    [["low screw a tenth", "out"], "low fire screw a tenth of a turn counterclockwise"],
    [["high fire", "quarter turn", "in"], "high fire; high fire screw a quarter turn clockwise"],
    [["half a turn in", "the low one"], "low fire screw half a turn clockwise"],
    [["CO2 ninety two", "yes"], "C O 2 nine point two"],
    [["CO2 ninety two", "yeah"], "C O 2 nine point two"],
    [["CO2 ninety two", "no, nine point four"], "C O 2 nine point four"],
    [["CO2 ninety two", "nine point four"], "C O 2 nine point four"],
    [["CO two ten", "yes"], "C O 2 ten"],
    [["CO two ten", "no", "yes"], "C O two hundred ten"],
    [["CO two ten", "two hundred and ten"], "C O two hundred ten"],
    [["CO nine point two", "nine point two"], "C O 2 nine point two"],
    [["there's no CO in the room", "yes"], "room C O zero"],
    [["high fire CO2", "nine point two"], "high fire; C O 2 nine point two"],
    [["meter time", "45 seconds"], "meter time forty five"],
    [["meter time", "45"], "meter time forty five"],
    [["meter time", "two minutes"], "meter time one hundred twenty"],
    [["meter time", "give me two minutes"], ""],
    [
      ["two cubic feet in five thousand seconds", "45 seconds"],
      "meter time forty five seconds for two cubic feet",
    ],
    [["two cubic feet in five thousand seconds", "45"], "meter time forty five seconds for two cubic feet"],
    [["high fire", "9.2/40"], "high fire; C O 2 nine point two; C O forty"],
    [["9.2/40", "yes", "yes"], "C O forty; C O 2 nine point two"],
    [["fifty four hundred", "yes"], "fan speed five thousand four hundred"],
    [["two point one percent", "yes"], "oxygen two point one"],
    [["two point one percent", "CO2"], "C O 2 two point one"],
    [["fan fifty four", "yes"], "fan speed five thousand four hundred"],
    [["fan fifty four", "no, fifty four"], "fan speed fifty four"],
  ])("%j", (phrases, log) => expect(talk(...phrases).log).toBe(log));
});

describe("what is no answer logs nothing, and the question stays or goes", () => {
  it.each([
    ["yes to a question for a number: asked again", ["CO2", "yes"], "C O 2: how much?", ""],
    [
      "yes to which way: asked again",
      ["quarter turn", "yes"],
      "A quarter turn: clockwise or counterclockwise?",
      "",
    ],
    ["no drops it", ["CO2", "no"], "Dropped.", ""],
    ["no to all candidates", ["CO two ten", "no", "no"], "Dropped.", ""],
    ["scratch that drops it", ["CO2 ninety two", "scratch that"], "Dropped.", ""],
    ["a late yes", ["CO2 ninety two", "CO forty", "yes"], "Nothing to confirm.", "C O forty"],
    ["a whole phrase goes on", ["CO2", "CO forty", "nine point two"], "Nine point two of what?", "C O forty"],
    ["an impossible number: asked again", ["CO2", "ninety two"], "C O 2 nine point two?", ""],
    ["talk", ["CO2", "hand me the torch"], "", ""],
    ["a time", ["CO2", "give me two minutes"], "", ""],
    ["a way that was not asked for", ["CO2", "clockwise"], "", ""],
  ])("%s", (_, phrases, answer, log) => expect(talk(...phrases)).toEqual({ answer, log }));
});

describe("corrections that say what they mend", () => {
  it.each([
    [["CO forty", "CO2 nine", "no, the CO was fifty"], "C O fifty; C O 2 nine"],
    [["CO2 nine", "no, room CO was twelve"], "C O 2 nine; room C O twelve"],
    [["high fire screw a quarter in", "CO forty", "strike the turn"], "C O forty"],
    [["high fire screw a quarter in", "no, an eighth"], "high fire screw an eighth of a turn clockwise"],
    [["CO forty", "strike the turn"], "C O forty"],
    [["CO2 nine", "CO forty", "strike that CO2"], "C O forty"],
    [["CO2 nine", "strike that CO"], "C O 2 nine"],
    [["static gas 7", "that's in millibar"], "static inlet gas pressure seven millibar"],
    [["flue 54", "no, celsius"], "flue temperature fifty four degrees Celsius"],
    [["gas 7", "no, dynamic"], "dynamic inlet gas pressure seven inches of water"],
    [["high screw a quarter in", "no, the other way"], "high fire screw a quarter turn counterclockwise"],
    [["high screw a quarter in", "no, out"], "high fire screw a quarter turn counterclockwise"],
    [["high screw a quarter in", "no, that was the low screw"], "low fire screw a quarter turn clockwise"],
    [["cap back on", "the cap isn't on yet"], "low fire cap on; low fire cap is off"],
  ])("%j", (phrases, log) => expect(talk(...phrases).log).toBe(log));
});

describe("a mend without a number is read back with what is new", () => {
  it.each([
    [["flue 54", "no, celsius"], "Now flue temperature fifty four degrees Celsius."],
    [
      ["high fire CO2 9.2 CO 40", "no, low fire"],
      "Now low fire C O 2 nine point two, now low fire C O forty.",
    ],
    [["high fire CO2 9.2", "no, that was low fire"], "Now low fire C O 2 nine point two."],
    [["high fire", "no, low fire"], "Low fire."],
    [["high screw a quarter in", "no, out"], "Now high fire screw a quarter turn counterclockwise."],
    [
      ["flue 130, supply 60, return 40", "no, celsius"],
      "Now flue temperature one hundred thirty degrees Celsius, now supply temperature sixty degrees Celsius, now return temperature forty degrees Celsius.",
    ],
    [["supply 60 fahrenheit, return 40", "no, celsius"], "Now return temperature forty degrees Celsius."],
    [["return 40", "supply 60", "no, celsius"], "Now supply temperature sixty degrees Celsius."],
    [["CO forty", "no, celsius"], "Nothing to mend."],
    [["CO2 nine", "strike that CO"], "No such reading to strike."],
  ])("%j", (phrases, answer) =>
    expect(talk(...phrases).answer.replace(" No sheet, not judged.", "")).toBe(answer),
  );
});

describe("what is asked to be confirmed is confirmed by name", () => {
  it.each([
    [
      ["finish the visit", "cap", "port, panel"],
      "visit finished; low fire cap on; test port plugged; panel on",
    ],
    [["cap", "port"], ""],
    [["finish the visit", "no cap"], "visit finished"],
    [["finish the visit", "cap?"], "visit finished"],
  ])("%j", (phrases, log) => expect(talk(...phrases).log).toBe(log));
});

/** Phrase by phrase: what is answered, then what stands in the log at the end. */
describe("dialogues", () => {
  type Line = readonly [phrase: string, answer: string];
  const way = "A quarter turn: clockwise or counterclockwise?";
  const screw = "A quarter turn of which screw: high or low?";
  const cases: [string, readonly Line[], string][] = [
    [
      "which way, then which screw: one question takes the place of the other",
      [
        ["quarter turn", way],
        ["yes", way],
        ["in", screw],
        ["yes", screw],
        ["the high one", "High fire screw a quarter turn clockwise."],
        ["yes", "Nothing to confirm."],
      ],
      "high fire screw a quarter turn clockwise",
    ],
    [
      "an impossible value asks again, and is forgotten",
      [
        ["CO2", "C O 2: how much?"],
        ["ninety nine thousand", "C O 2: how much?"],
        ["minus five", "C O 2: how much?"],
        ["nine point one", "C O 2 nine point one. No sheet, not judged."],
      ],
      "C O 2 nine point one",
    ],
    [
      "the next number that may have been meant, then none",
      [
        ["CO two ten", "C O 2 ten?"],
        ["no", "C O two hundred ten?"],
        ["no", "Dropped."],
        ["yes", "Nothing to confirm."],
      ],
      "",
    ],
    [
      "low: the firing, or a judgement",
      [
        ["high fire", "High fire."],
        ["CO2 eight point six low", "Low fire C O 2 eight point six?"],
        ["no", "C O 2 eight point six?"],
        ["yes", "C O 2 eight point six. No sheet, not judged."],
      ],
      "high fire; C O 2 eight point six",
    ],
    [
      "a correction that cannot be, and the value instead of yes",
      [
        ["CO2 eight", "C O 2 eight. No sheet, not judged."],
        ["no, ninety", "Make C O 2 nine?"],
        ["nine point three", "Now nine point three. No sheet, not judged."],
        ["yes", "Nothing to confirm."],
      ],
      "C O 2 nine point three",
    ],
    [
      "a correction that cannot be, and no",
      [
        ["CO2 eight", "C O 2 eight. No sheet, not judged."],
        ["no, ninety", "Make C O 2 nine?"],
        ["no", "Dropped."],
      ],
      "C O 2 eight",
    ],
    [
      "a number said again mends the question, not an old reading",
      [
        ["CO2 nine", "C O 2 nine. No sheet, not judged."],
        ["nine point two", "Nine point two of what?"],
        ["no, nine point four", "Nine point four of what?"],
        ["flame current", "Flame current nine point four. No sheet, not judged."],
      ],
      "C O 2 nine; flame current nine point four",
    ],
    [
      "a turn said again mends the question, not an old reading",
      [
        ["CO2 nine", "C O 2 nine. No sheet, not judged."],
        ["low screw a quarter", `Low fire screw ${way.toLowerCase()}`],
        ["no, an eighth", "Low fire screw an eighth of a turn: clockwise or counterclockwise?"],
        ["out", "Low fire screw an eighth of a turn counterclockwise."],
      ],
      "C O 2 nine; low fire screw an eighth of a turn counterclockwise",
    ],
    [
      "a turn of the screw that was said, not of the firing's",
      [
        ["high fire", "High fire."],
        ["low screw a quarter", `Low fire screw ${way.toLowerCase()}`],
        [
          "an eighth clockwise",
          "The low fire screw was turned at high fire. Low fire screw an eighth of a turn clockwise.",
        ],
      ],
      "high fire; low fire screw an eighth of a turn clockwise",
    ],
    [
      "strike that turn drops the turn in question",
      [
        ["high screw a tenth in", "High fire screw a tenth of a turn clockwise."],
        ["quarter turn", way],
        ["strike that turn", "Dropped."],
        ["strike that turn", "Struck high fire screw a tenth of a turn clockwise."],
        ["strike that turn", "No turn to strike."],
      ],
      "",
    ],
    [
      "strike that turn leaves what was said after it",
      [
        ["high screw a tenth in", "High fire screw a tenth of a turn clockwise."],
        ["CO2 nine", "C O 2 nine. No sheet, not judged."],
        ["strike that turn", "Struck high fire screw a tenth of a turn clockwise."],
      ],
      "C O 2 nine",
    ],
    [
      "a question of the same breath stays",
      [
        ["quarter turn clockwise, CO2 nine", `C O 2 nine. No sheet, not judged. ${screw}`],
        ["the low one", "Low fire screw a quarter turn clockwise."],
      ],
      "C O 2 nine; low fire screw a quarter turn clockwise",
    ],
    [
      "a new question takes the place of an old one: a late yes logs nothing",
      [
        ["CO2 ninety two", "C O 2 nine point two?"],
        ["high screw a quarter", `High fire screw ${way.toLowerCase()}`],
        ["in", "High fire screw a quarter turn clockwise."],
        ["yes", "Nothing to confirm."],
      ],
      "high fire screw a quarter turn clockwise",
    ],
    [
      "the work goes on: a late yes logs nothing",
      [
        ["CO2 ninety two", "C O 2 nine point two?"],
        ["low fire", "Low fire."],
        ["yes", "Nothing to confirm."],
      ],
      "low fire",
    ],
    [
      "talk and questions to the helper leave it open",
      [
        ["CO2", "C O 2: how much?"],
        ["hand me the torch", ""],
        [
          "read back",
          "No readings yet. Still to do: before test, high fire, low fire, close up. C O 2: how much?",
        ],
        ["repeat", "C O 2: how much?"],
        ["nine", "C O 2 nine. No sheet, not judged."],
      ],
      "C O 2 nine",
    ],
    [
      "a named correction of what was never read is a reading",
      [["no, the CO was one thirty", "C O one hundred thirty. No sheet, not judged."]],
      "C O one hundred thirty",
    ],
    [
      "a check that is not done is read back as not done",
      [
        ["cap isn't on yet", "Low fire cap is off."],
        ["cap is on", "Low fire cap on."],
      ],
      "low fire cap is off; low fire cap on",
    ],
    [
      "the meter's dial is read back with its time",
      [
        [
          "half foot dial eighteen seconds",
          "Meter time eighteen seconds for half a cubic foot. No sheet, not judged. Gas input about one hundred three thousand B T U per hour gross.",
        ],
      ],
      "meter time eighteen seconds for half a cubic foot",
    ],
    ["talk is not answered", [["hand me the four millimetre key", ""]], ""],
    ["no to nothing", [["no", "Nothing to confirm."]], ""],
  ];
  it.each(cases)("%s", (_name, lines, log) => {
    const found = dialogue(lines.map(([phrase]) => phrase));
    expect(found.steps.map(({ phrase, answer }) => [phrase, answer])).toEqual(lines);
    expect(found.log).toBe(log);
  });
});

describe("yes or no with the number is one answer", () => {
  it.each([
    [["CO2 ninety two", "yes, nine point two"], "C O 2 nine point two"],
    [["CO2 ninety two", "yes, CO2 nine point two"], "C O 2 nine point two"],
    [["CO2 ninety two", "yes, nine point three"], "C O 2 nine point three"],
    [["CO2 ninety two", "yes, CO2 nine point three"], "C O 2 nine point three"],
    [["CO2 ninety two", "yes, ninety"], ""],
    [["CO2 ninety two", "yes, CO forty"], "C O 2 nine point two; C O forty"],
    [["high fire CO2 ninety two", "yes, low fire CO2 nine"], "C O 2 nine point two; C O 2 nine"],
    [["CO2", "yes, nine point two"], "C O 2 nine point two"],
    [["CO2", "no, nine point two"], "C O 2 nine point two"],
    [["CO two ten", "no, two hundred and ten"], "C O two hundred ten"],
    [["CO2 eight", "no, ninety", "yes, nine point three"], "C O 2 nine point three"],
    [["CO2 eight", "no, ninety", "yes, CO2 nine"], "C O 2 nine"],
  ])("%j", (phrases, log) => expect(talk(...phrases).log).toBe(log));
});

describe("what was not heard clearly is asked, and no answer is lost", () => {
  const first = (place: number) => (place === 0 ? 0.5 : 1);
  it.each([
    [["high screw quarter turn clockwise", "yes"], "high fire screw a quarter turn clockwise"],
    [["high screw quarter turn clockwise", "no"], ""],
    [["high screw quarter turn clockwise", "no, an eighth"], "high fire screw an eighth of a turn clockwise"],
    [["CO forty", "no, nine point two"], ""],
    [
      ["CO2 nine high fire and eight point eight low fire", "yes", "yes"],
      "C O 2 eight point eight; C O 2 nine",
    ],
  ])("%j", (phrases, log) => expect(dialogue(phrases, {}, first).log).toBe(log));
});
