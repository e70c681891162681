import { describe, expect, it } from "vitest";
import type { Reply } from "../../src/answer/turn.ts";
import { dialogue } from "../support/dialogue.ts";
import { talk as visitOf } from "../support/talk.ts";

/** What the last of these phrases is answered with, and what stands in the log after it. */
function talk(...phrases: string[]): { answer: string; log: string } {
  const { answer, log } = dialogue(phrases);
  return { answer, log };
}

/** The reply to the last of these phrases, in a visit with limits. */
function said(phrases: string[]): Reply {
  const last = visitOf(phrases).turns.at(-1);
  if (!last) throw new Error("no phrase was said");
  return last.reply;
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
    [["CO2 12.8", "yes"], "C O 2 twelve point eight"],
    [["CO2 12.8", "nine point eight"], "C O 2 nine point eight"],
    [["CO2 12.8", "no"], ""],
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
    [["CO alarm", "CO2 nine", "scratch that CO alarm"], "C O 2 nine"],
    [["room CO ninety", "scratch that alarm"], "room C O ninety"],
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
    [["CO2 nine", "scratch that CO alarm"], "No alarm to strike."],
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

describe("a correction that only one value can be mends at once", () => {
  it.each([
    [["CO2 9.9", "make that nine four"], "C O 2 nine point four"],
    [["CO2 9.9", "sorry nine four"], "C O 2 nine point four"],
    [["CO2 9.9", "correction nine four"], "C O 2 nine point four"],
    [["CO2 9.9", "no, nine four"], "C O 2 nine point four"],
    [["CO2 9.9", "no that was nine four"], "C O 2 nine point four"],
    [["CO 40", "CO2 9.9", "sorry nine four"], "C O forty; C O 2 nine point four"],
    [["CO 99", "sorry nine four"], "C O ninety four"],
    [["CO2 ninety two", "no, nine four"], "C O 2 nine point four"],
  ])("%j", (phrases, log) => expect(talk(...phrases).log).toBe(log));

  it("and is asked about where two readings could be meant", () =>
    expect(talk("CO2 9.9, CO 40", "sorry nine four").answer).toBe("Make that nine point four?"));
});

describe("while a question is open no turn is advised", () => {
  const turn = /Turn the high fire screw/;

  it.each([["CO nine point two"], ["CO 40, CO2"], ["quarter turn"]])("%s", (phrase) => {
    const before = ["high fire", "CO2 9.9"];
    expect(said(before).detail).toMatch(turn);
    const { detail, answer, judgement } = said([...before, phrase]);
    expect(answer).toMatch(/[?]$/);
    expect([detail, answer]).not.toContainEqual(expect.stringMatching(turn));
    expect(judgement.advice).toEqual({ action: "none" });
  });

  it("asked for advice, it asks again", () =>
    expect(said(["high fire", "CO2 9.9", "CO nine point two", "which way"]).answer).toMatch(
      /C O 2 nine point two[?]$/,
    ));

  it("answered, it advises again", () =>
    expect(said(["high fire", "CO2 9.9", "CO nine point two", "no"]).detail).toMatch(turn));
});
