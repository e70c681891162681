import { describe, expect, it } from "vitest";
import { takeTurn } from "../../src/answer/turn.ts";
import { loadLanguage } from "../../src/cli/language.ts";
import { createParser } from "../../src/meaning/parser.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { spokenLog } from "../support/spoken-log.ts";
import { head, time, typed } from "../support/visits.ts";

const parser = createParser(loadLanguage());

/** What the last of these phrases is answered with, and what stands in the log after it. */
function talk(...phrases: string[]): { answer: string; log: string } {
  let visit: Visit = { format: "burnerside-visit/1", head: head({ sheet: null }), entries: [] };
  let answer = "";
  let ids = 0;
  phrases.forEach((phrase, i) => {
    const turn = takeTurn(parser, visit, typed(phrase), time(10 * i), () => `e${ids++}`);
    visit = turn.visit;
    answer = turn.reply.answer;
  });
  return { answer, log: spokenLog(visit) };
}

describe("what is missing is asked for in one short question", () => {
  it.each([
    [["CO2"], "C O 2: how much?"],
    [["static gas pressure"], "Static inlet gas pressure: how much?"],
    [["nine point two"], "Nine point two of what?"],
    [["forty parts per million"], "Forty parts per million of what?"],
    [["quarter turn"], "A quarter turn: clockwise or counterclockwise?"],
    [["quarter turn clockwise"], "A quarter turn of which screw: high or low?"],
    [["CO two ten"], "C O 2 ten?"],
    [["CO2 ninety two"], "C O 2 nine point two?"],
    [["CO over two hundred"], "C O: how much?"],
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
    ["a late yes", ["CO2 ninety two", "CO forty", "yes"], "There is no question open.", "C O forty"],
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
    [["cap back on", "the cap isn't on yet"], "low fire cap on; not yet low fire cap on"],
  ])("%j", (phrases, log) => expect(talk(...phrases).log).toBe(log));
});
