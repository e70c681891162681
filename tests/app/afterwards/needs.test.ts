import { describe, expect, test } from "vitest";
import { takeAmendment, takeTurn } from "../../../src/answer/turn.ts";
import { type Need, needsOf } from "../../../src/app/afterwards/needs.ts";
import { rivalsOf } from "../../../src/app/afterwards/rivals.ts";
import type { Verdict } from "../../../src/judge/judgement.ts";
import { replay } from "../../../src/judge/replay.ts";
import type { Phrase } from "../../../src/meaning/heard.ts";
import { foldVisit } from "../../../src/visit/fold.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import type { OfPlace } from "../../support/by-hand.ts";
import { parser } from "../../support/talk.ts";
import { head, time } from "../../support/visits.ts";

type Said = string | (Partial<Phrase> & { readonly text: string; readonly at?: number });

/** The codes of what needs a look, by place in the visit, after these phrases (heard, a hundred seconds apart) and corrections. */
function needs(said: readonly Said[], byHand: readonly OfPlace[] = []): Record<number, Need["code"][]> {
  let visit: Visit = { format: "burnerside-visit/1", head: head(), entries: [] };
  let ids = 0;
  const newId = () => `e${ids++}`;
  let at = 0;
  for (const each of said) {
    const heard = typeof each === "string" ? { text: each } : each;
    at = "at" in heard && heard.at !== undefined ? heard.at : at + 100;
    const phrase = { engine: "offline", confidence: 0.99, sound: null, ...heard } as const;
    visit = takeTurn(parser, visit, phrase, time(at), newId).visit;
  }
  for (const { of, ...amendment } of byHand) {
    const done = takeAmendment(
      parser,
      visit,
      { ...amendment, id: visit.entries[of]?.id ?? "" },
      time(at + 100),
      newId,
    );
    if (!done.ok) throw new Error(done.problem);
    visit = done.turn.visit;
  }
  const verdicts = new Map<string, Verdict>();
  for (const { since, verdicts: fresh } of replay(visit))
    for (const { id, body } of since) {
      const verdict = fresh.get(body.kind === "replace" ? body.target : id);
      if (verdict) verdicts.set(id, verdict);
    }
  const rivals: Parameters<typeof needsOf>[2]["rivals"] = (entry, together) =>
    rivalsOf(entry, together, (text) => parser.parse(text));
  const found = needsOf(visit, foldVisit(visit), { verdicts, rivals });
  return Object.fromEntries(
    visit.entries.flatMap(({ id, seq }) => {
      const codes = found.get(id)?.map(({ code }) => code);
      return codes ? [[seq, codes]] : [];
    }),
  );
}

const good = "high fire CO2 nine point two";

describe("what needs a look", () => {
  test.each<[what: string, said: Said[], expected: ReturnType<typeof needs>]>([
    ["nothing, where all was clear and right", [good, "CO forty"], {}],
    ["what was not understood", [good, "CO2 ninety two percent"], { 1: ["unsure"] }],
    ["not what was said again", [good, "CO2 ninety two percent", "CO2 nine point two"], {}],
    ["what the ear was not quite sure of", [{ text: good, confidence: 0.9 }], { 0: ["doubtful"] }],
    ["not what it was sure of", [{ text: good, confidence: 0.95 }], {}],
    [
      "a close rival, of the thing that it is of",
      [
        {
          text: `${good}, CO forty`,
          rivals: [{ text: "high fire CO2 nine point two, CO fourteen", confidence: 0.08 }],
        },
      ],
      { 1: ["rival"] },
    ],
    [
      "not a far one",
      [{ text: good, rivals: [{ text: "high fire CO2 nine point nine", confidence: 0.07 }] }],
      {},
    ],
    [
      "what is earlier than what was logged before",
      [
        { text: good, at: 4000 },
        { text: "CO forty", at: 400 },
      ],
      { 1: ["time-back"] },
    ],
    [
      "not by a second or two",
      [
        { text: good, at: 400 },
        { text: "CO forty", at: 398 },
      ],
      {},
    ],
    ["a number mended by voice", [good, "no, nine point one"], { 0: ["mended-by-voice"] }],
    ["not one mended by typing", [good, { text: "no, nine point one", engine: "typed" }], {}],
    [
      "a firing said long before",
      [good, { text: "CO2 nine point one", at: 100 + 601 }],
      { 1: ["assumed-firing"] },
    ],
    ["not one said ten minutes before", [good, { text: "CO2 nine point one", at: 100 + 600 }], {}],
    ["a unit that nobody said", ["static gas pressure seven"], { 0: ["assumed-unit"] }],
    ["not after it was said once", ["static gas pressure 7 inches", "static gas pressure 8"], {}],
    ["not of what has one unit", ["room CO 4"], {}],
    [
      "what came too early and was not read again",
      [good, "quarter clockwise", { text: "CO2 nine point two", at: 230 }],
      { 2: ["too-early"] },
    ],
    [
      "not where it was read again",
      [
        good,
        "quarter clockwise",
        { text: "CO2 nine point two", at: 230 },
        { text: "CO2 nine point two", at: 300 },
      ],
      {},
    ],
    ["what was left out of limits", ["high fire CO2 eleven"], { 0: ["out-of-limits"] }],
    ["not where it was put right", ["high fire CO2 eleven", good], {}],
    [
      "a number that was passed over",
      ["high fire CO2 nine point two and the fifty of them"],
      { 0: ["number-passed-over"] },
    ],
    ["not words without a number", ["okay so high fire CO2 nine point two then"], {}],
    ["not what was struck", [{ text: good, confidence: 0.9 }, "scratch that"], {}],
    [
      "of what was typed only what it says of the boiler",
      [{ text: "high fire CO2 eleven", engine: "typed", confidence: 0.9 }],
      { 0: ["out-of-limits"] },
    ],
    [
      "what was left out of limits, mended by voice",
      ["high fire CO2 eleven", "no, ten point nine"],
      { 0: ["mended-by-voice", "out-of-limits"] },
    ],
    [
      "what was left out of limits, mended by typing at the boiler",
      ["high fire CO2 eleven", { text: "no, ten point nine", engine: "typed" }],
      { 0: ["out-of-limits"] },
    ],
    ["not what was typed, where it is right", [{ text: good, engine: "typed", confidence: 0.9 }], {}],
  ])("%s", (_, said, expected) => expect(needs(said)).toEqual(expected));
});

describe("what was looked at by hand needs no look any more", () => {
  const bad: Said[] = [{ text: "high fire CO2 eleven", confidence: 0.9 }, "CO2 ninety two percent"];
  test("before", () => expect(needs(bad)).toEqual({ 0: ["doubtful", "out-of-limits"], 1: ["unsure"] }));
  test.each<[what: string, done: OfPlace[], left: ReturnType<typeof needs>]>([
    ["confirmed", [{ kind: "confirm", of: 0 }], { 1: ["unsure"] }],
    ["mended", [{ kind: "mend", of: 0, text: "9.2" }], { 1: ["unsure"] }],
    [
      "mended to what is out of limits as well",
      [{ kind: "mend", of: 0, text: "10.9" }],
      { 0: ["out-of-limits"], 1: ["unsure"] },
    ],
    [
      "mended so and then confirmed",
      [
        { kind: "mend", of: 0, text: "10.9" },
        { kind: "confirm", of: 0 },
      ],
      { 1: ["unsure"] },
    ],
    [
      "confirmed and then mended",
      [
        { kind: "confirm", of: 0 },
        { kind: "mend", of: 0, text: "10.9" },
      ],
      { 0: ["out-of-limits"], 1: ["unsure"] },
    ],
    ["struck", [{ kind: "strike", of: 0 }], { 1: ["unsure"] }],
    ["left out", [{ kind: "leave-out", of: 1 }], { 0: ["doubtful", "out-of-limits"] }],
    [
      "told",
      [
        { kind: "mend", of: 1, text: "9.2" },
        { kind: "confirm", of: 0 },
      ],
      {},
    ],
  ])("%s", (_, done, left) => expect(needs(bad, done)).toEqual(left));
});

test("reasons are told in whole sentences", () => {
  let visit: Visit = { format: "burnerside-visit/1", head: head(), entries: [] };
  const phrase = { text: "CO2 ninety two percent", engine: "offline", confidence: 0.9, sound: null } as const;
  visit = takeTurn(parser, visit, phrase, time(0), () => "e0").visit;
  const known = { verdicts: new Map<string, Verdict>(), rivals: () => [] };
  const [found] = [...needsOf(visit, foldVisit(visit), known).values()];
  expect(found).toEqual([{ code: "unsure", text: "Not understood: CO2 cannot be 92 %." }]);
});
