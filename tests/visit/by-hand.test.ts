import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { judge } from "../../src/judge/judge.ts";
import { type Amendment, amendByHand } from "../../src/visit/by-hand.ts";
import { type Details, NO_DETAILS } from "../../src/visit/details.ts";
import { Entry } from "../../src/visit/entry.ts";
import { foldVisit, step } from "../../src/visit/fold.ts";
import { phasesOf } from "../../src/visit/phase.ts";
import { isWithin, MOST_TASKS, type Task } from "../../src/visit/task.ts";
import { anyItem, anyScript } from "../support/arbitrary.ts";
import { byHand, mend, type OfPlace } from "../support/by-hand.ts";
import { parser } from "../support/talk.ts";
import { play, time } from "../support/visits.ts";

const kind = <K extends "strike" | "put-back" | "confirm" | "leave-out">(k: K, of: number) =>
  ({ kind: k, of }) as OfPlace;

describe("a mend typed to one entry means what the same words mean by voice, but of that entry", () => {
  const before = ["high fire CO2 9.2, CO 40", "quarter out", "low fire CO2 8.9"];
  const [first, co40, quarter, last] = [0, 1, 2, 3];
  // Of `before`, with one thing changed.
  const log = (changes: Partial<Record<"a" | "b" | "c" | "d", string>>) =>
    [
      changes.a ?? "C O 2 nine point two",
      changes.b ?? "C O forty",
      changes.c ?? "high fire screw a quarter turn counterclockwise",
      changes.d ?? "C O 2 eight point nine",
    ].join("; ");
  test.each<[of: number, text: string, log: string]>([
    [first, "nine point four", log({ a: "C O 2 nine point four" })],
    [first, "9.4", log({ a: "C O 2 nine point four" })],
    [first, "no, nine point four", log({ a: "C O 2 nine point four" })],
    [first, "make that 9.4", log({ a: "C O 2 nine point four" })],
    [first, "CO2 9.4", log({ a: "C O 2 nine point four" })],
    [first, "oxygen 4.5", log({ a: "oxygen four point five" })],
    [first, "quarter in", log({ a: "high fire screw a quarter turn clockwise" })],
    [co40, "14", log({ b: "C O fourteen" })],
    [co40, "CO 14", log({ b: "C O fourteen" })],
    [co40, "room CO 4", log({ b: "room C O four" })],
    [quarter, "out", log({})],
    [quarter, "in", log({ c: "high fire screw a quarter turn clockwise" })],
    [quarter, "half out", log({ c: "high fire screw half a turn counterclockwise" })],
    [quarter, "the other way", log({ c: "high fire screw a quarter turn clockwise" })],
    [quarter, "low screw", log({ c: "low fire screw a quarter turn counterclockwise" })],
    [quarter, "low fire", log({ c: "low fire screw a quarter turn counterclockwise" })],
    [quarter, "an eighth", log({ c: "high fire screw an eighth of a turn counterclockwise" })],
    [quarter, "0.5", log({ c: "high fire screw half a turn counterclockwise" })],
    [quarter, "low screw eighth in", log({ c: "low fire screw an eighth of a turn clockwise" })],
    [last, "scratch that", log({ d: "" }).replace(/; $/, "")],
  ])("%i: %s", (of, text, expected) => {
    const done = byHand(before, [mend(of, text)]);
    expect([done.problem, done.log]).toEqual(["", expected]);
  });

  test.each<[phrase: string, text: string, of: number, field: string, expected: unknown]>([
    ["flue temperature 54", "celsius", 0, "unit", "Cel"],
    ["flue temperature 54", "no, celsius", 0, "unit", "Cel"],
    ["inlet gas pressure 7 inches", "mbar", 0, "unit", "mbar"],
    ["static gas pressure 7 inches", "dynamic", 0, "condition", "dynamic"],
    ["high fire CO2 9.2", "low fire", 0, "firing", "low"],
    ["high fire CO2 9.2", "CO2 8.8 at low fire", 0, "firing", "low"],
    ["high fire CO2 9.2", "9.4", 0, "firing", "high"],
  ])("%s: %s", (phrase, text, of, field, expected) => {
    const { state, problem } = byHand([phrase], [mend(of, text)]);
    expect([problem, state.readings[0]?.reading]).toMatchObject(["", { [field]: expected }]);
  });

  test.each<[phrase: string, text: string, log: string]>([
    ["high fire", "low fire", "low fire"],
    ["note gasket is worn", "the gasket is torn", "note: the gasket is torn"],
    ["note gasket is worn", "note the port is tight", "note: the port is tight"],
    ["the panel is on", "the panel isn't on yet", "panel is off"],
    ["mark as found", "mark as left", "marked as left"],
    ["mark as found", "high fire CO2 9.2", "C O 2 nine point two"],
  ])("%s: %s", (phrase, text, expected) => {
    const done = byHand([phrase], [mend(0, text)]);
    expect([done.problem, done.log]).toEqual(["", expected]);
  });

  test("what was said stays said, what was assumed stays assumed", () => {
    const { state } = byHand(["high fire", "CO2 9.2"], [mend(1, "9.4")]);
    expect(state.readings[0]?.reading.origin).toMatchObject({ value: "said", firing: "assumed" });
  });
  test("the old value stays, with what it was mended from", () => {
    const { state, visit } = byHand(["CO2 9.2"], [mend(0, "9.4"), mend(0, "9.6")]);
    expect(state.readings[0]?.history.map(({ value }) => value)).toEqual([9.2, 9.4]);
    expect(visit.entries).toHaveLength(3);
    expect(visit.entries[1]).toMatchObject({ engine: "typed", phrase: "9.4", at: time(3600) });
  });
});

describe("what cannot be is told in one sentence, and changes nothing", () => {
  const before = ["high fire CO2 9.2", "CO2 ninety two percent", "quarter out"];
  test.each<[what: string, amendment: OfPlace | Amendment, problem: string]>([
    ["no words", mend(0, " "), "Type what it was."],
    ["talk", mend(0, "cheese"), "Nothing in “cheese” says what it was instead."],
    ["yes", mend(0, "yes"), "Nothing in “yes” says what it was instead."],
    ["two things", mend(0, "CO2 9.4, CO 40"), "One thing at a time."],
    ["two numbers", mend(0, "9.4 and 9.6"), "One thing at a time."],
    ["out of bounds", mend(0, "CO2 94"), "CO2 cannot be 94 %."],
    ["out of bounds, bare", mend(0, "94"), "CO2 cannot be 94 %."],
    ["a unit that it cannot have", mend(0, "celsius"), "CO2 cannot have that."],
    ["a way for a reading", mend(0, "no, clockwise"), "That is a reading, not a turn."],
    ["too many turns", mend(2, "17.5"), "A turn is more than none and at most 5."],
    ["a unit for a turn", mend(2, "no, celsius"), "That is a turn, not a reading."],
    ["a command", mend(0, "what is next"), "That is a command, not what was said."],
    ["no such entry", { kind: "strike", id: "nobody" }, "That is not in this visit."],
    ["put back what stands", kind("put-back", 0), "That stands already."],
    ["put back what was never logged", kind("put-back", 1), "That was never logged: say what it was."],
    ["no name", { kind: "review", by: "  " }, "Type your name, up to 80 letters."],
    ["a long name", { kind: "review", by: "x".repeat(81) }, "Type your name, up to 80 letters."],
  ])("%s", (_, amendment, problem) => {
    const done = byHand(before, [amendment]);
    expect(done.problem).toBe(problem);
    expect(done.visit.entries).toEqual(byHand(before, []).visit.entries);
  });
  test("with what may have been meant", () => {
    const { last } = byHand(before, [mend(0, "94")]);
    expect(last).toMatchObject({ ok: false, candidates: [{ kind: "reading", value: 9.4 }] });
  });
  test("struck twice, confirmed when struck, left out twice", () => {
    expect(byHand(before, [kind("strike", 0), kind("strike", 0)]).problem).toBe("That is struck already.");
    expect(byHand(before, [kind("strike", 0), kind("confirm", 0)]).problem).toBe("That is struck.");
    const left = byHand(before, [kind("leave-out", 1), kind("leave-out", 1)]);
    expect(left.problem).toBe("That is settled already.");
  });
});

describe("struck by mistake", () => {
  const found = "C O 2 nine point two";
  test("is put back as it was", () => {
    const { log, state } = byHand(["CO2 9.2"], [kind("strike", 0), kind("put-back", 0)]);
    expect([log, state.items[0]?.history]).toEqual([found, []]);
  });
  test("comes back with what it is mended to", () => {
    expect(byHand(["CO2 9.2"], [kind("strike", 0), mend(0, "9.4")]).log).toBe("C O 2 nine point four");
  });
  test("a turn put back is a turn again for all that was read after it", () => {
    const said = ["high fire CO2 8.4", "half in", "CO2 8.8"];
    const phase = (...done: OfPlace[]) => phasesOf(byHand(said, done).state)[0];
    expect(phase(kind("strike", 1))?.asFound?.reading.value).toBe(8.8);
    expect(phase(kind("strike", 1), kind("put-back", 1))?.asFound?.reading.value).toBe(8.4);
  });
  test("confirmed, nothing has another history", () => {
    const { state, visit } = byHand(["CO2 9.2"], [kind("confirm", 0)]);
    expect([state.items[0]?.history, visit.entries.length]).toEqual([[], 2]);
  });
});

describe("what was not understood counts, told later, at its own time and place", () => {
  const percent = "CO2 ninety two percent";
  const candidates = (of: number, phrases: readonly string[]) => {
    const body = byHand(phrases, []).visit.entries[of]?.body;
    if (body?.kind !== "unsure") throw new Error(`entry ${of} is not unsure: ${JSON.stringify(body)}`);
    return body.unsure.candidates;
  };
  const pick = (of: number, phrases: readonly string[], which = 0): OfPlace => {
    const item = candidates(of, phrases)[which];
    if (!item) throw new Error("no such candidate");
    return { kind: "pick", of, item };
  };
  const work = ["high fire", percent, "half in", "CO2 8.8"];

  test.each<[what: string, done: OfPlace]>([
    ["picked", pick(1, work)],
    ["typed with its name", mend(1, "CO2 9.2")],
    ["typed bare", mend(1, "9.2")],
  ])("%s", (_, done) => {
    const { problem, log, state } = byHand(work, [done]);
    expect(problem).toBe("");
    expect(log).toBe(
      "high fire; C O 2 nine point two; high fire screw half a turn clockwise; C O 2 eight point eight",
    );
    expect(state.readings[0]).toMatchObject({ id: "e1", seq: 1, at: time(200), said: percent });
    expect(state.readings[0]?.reading).toMatchObject({ firing: "high", origin: { firing: "assumed" } });
    expect(state.unsure[0]?.settled).toEqual({ by: "h0", how: "told" });
  });
  test("as found is what was read before the turn, however late it is told", () => {
    const [row] = phasesOf(byHand(work, [mend(1, "9.2")]).state);
    expect(row?.asFound?.reading.value).toBe(9.2);
    expect(row?.asLeft?.reading.value).toBe(8.8);
  });
  test("a reading that came too early did so then", () => {
    const said = ["high fire CO2 8.4", "@130 half in", `@150 ${percent}`];
    const { state, last } = byHand(said, [mend(2, "9.2")]);
    if (!last?.ok) throw new Error("not taken");
    expect(last.turn.reply.judgement.verdicts).toMatchObject([{ value: 9.2, verdict: "wait" }]);
    expect(judge(state, [], time(4000)).stage).not.toBe("low-fire");
  });
  test("the firing is that of its time, not of now", () => {
    const { state } = byHand(["high fire", percent, "low fire"], [mend(1, "9.2")]);
    expect(state.readings[0]?.reading.firing).toBe("high");
    expect(state.firing).toMatchObject({ firing: "low", since: time(300) });
  });
  test("a firing told later holds from then on", () => {
    const { state } = byHand(["high fire", percent, "low fire"], [mend(1, "low fire CO2 9")]);
    expect(state.firing).toMatchObject({ firing: "low", since: time(200) });
  });
  test("which screw, which way", () => {
    expect(byHand(["quarter out"], [mend(0, "low screw quarter out")]).log).toBe(
      "low fire screw a quarter turn counterclockwise",
    );
    expect(byHand(["high screw a quarter turn"], [mend(0, "out")]).log).toBe(
      "high fire screw a quarter turn counterclockwise",
    );
  });
  test("the screw that nobody named is asked for", () => {
    const { last } = byHand(["CO2 ninety two percent"], [mend(0, "quarter out")]);
    expect(last).toMatchObject({ ok: false, problem: "Which screw was not said." });
  });
  test("told, it is mended, struck and put back like all else", () => {
    const log = (...done: OfPlace[]) => byHand([percent], [mend(0, "9.2"), ...done]).log;
    expect(log(mend(0, "9.4"))).toBe("C O 2 nine point four");
    expect(log(kind("strike", 0))).toBe("");
    expect(log(kind("strike", 0), kind("put-back", 0))).toBe("C O 2 nine point two");
  });
  test("left out, it is settled and logs nothing; told after all, it counts", () => {
    const left = byHand([percent], [kind("leave-out", 0)]);
    expect([left.log, left.state.unsure[0]?.settled?.how]).toEqual(["", "dropped"]);
    const after = byHand([percent], [kind("leave-out", 0), mend(0, "9.2")]);
    expect([after.log, after.state.unsure[0]?.settled?.how]).toEqual(["C O 2 nine point two", "told"]);
  });
  test("what was answered at once is not told again", () => {
    const { log, problem } = byHand([percent, "yes"], [mend(0, "9.4")]);
    expect([log, problem]).toEqual(["C O 2 nine point two", "That was answered: mend what was logged then."]);
  });
  test("a mend that was in question mends what it was said of", () => {
    const said = ["high fire CO2 9.2", "no, ninety four", "CO 40"];
    const { log, problem, state } = byHand(said, [pick(1, said)]);
    expect([problem, log]).toEqual(["", "C O 2 nine point four; C O forty"]);
    expect(state.unsure[0]?.settled?.how).toBe("accepted");
  });
  test("said again at the boiler, it is settled", () => {
    expect(byHand([percent, "CO2 9.3"], []).state.unsure[0]?.settled).toEqual({
      by: "e1",
      how: "said-again",
    });
  });
  test("passed over at the boiler, it stays open", () => {
    expect(byHand([percent, "CO 40"], []).state.unsure[0]?.settled).toBeNull();
  });
  test("a question that is told leaves the others open", () => {
    const two = byHand(["CO2 ninety two percent and gas pressure"], []);
    expect(two.state.questions).toHaveLength(2);
    const { state } = byHand(["CO2 ninety two percent and gas pressure"], [mend(0, "9.2")]);
    expect(state.questions.map(({ id }) => id)).toEqual(["e1"]);
  });
});

describe("looks right", () => {
  const review: Amendment = { kind: "review", by: " Ada Quill " };
  test("keeps the name and the time", () => {
    const { state } = byHand(["CO2 9.2"], [review]);
    expect(state.reviewed).toEqual({ id: "h0", by: "Ada Quill", at: time(3600) });
  });
  test("whatever comes later opens it again", () => {
    expect(byHand(["CO2 9.2"], [review, mend(0, "9.4")]).state.reviewed).toBeNull();
    expect(byHand(["CO2 9.2"], [review, mend(0, "9.4"), review]).state.reviewed?.id).toBe("h2");
  });
  test("that a correction was refused opens nothing", () => {
    expect(byHand(["CO2 9.2"], [review, mend(0, "cheese")]).state.reviewed).not.toBeNull();
  });
  test("an open question stays open", () => {
    expect(byHand(["CO2 ninety two percent"], [review]).state.questions).toHaveLength(1);
  });
});

describe("what a note means, by hand", () => {
  const notes = ["high fire CO2 9.2", "note order a fan", "CO2 ninety two percent"];
  const task: Task = {
    action: { value: "order", span: { from: 0, to: 5 } },
    thing: { value: "fan", span: { from: 8, to: 11 } },
    due: { value: "2026-12-01", span: null },
    who: { value: "office", span: null },
    done: false,
  };
  const tasks = (id: string, ...given: Task[]): Amendment => ({ kind: "tasks", id, tasks: given });
  const of = (done: ReturnType<typeof byHand>, id: string) => done.state.tasks[id];
  test("is kept, as a whole, the last word of it; none as well", () => {
    expect(of(byHand(notes, [tasks("e1", task)]), "e1")).toEqual([task]);
    expect(of(byHand(notes, [tasks("e1", task, task), tasks("e1", task)]), "e1")).toEqual([task]);
    expect(of(byHand(notes, [tasks("e1", task), tasks("e1")]), "e1")).toEqual([]);
    expect(of(byHand(notes, []), "e1")).toBeUndefined();
  });
  test("goes with the note's words, and comes back with nothing but them", () => {
    expect(of(byHand(notes, [tasks("e1", task), mend(1, "order a pump")]), "e1")).toBeUndefined();
    expect(of(byHand(notes, [tasks("e1", task), mend(1, "CO 40")]), "e1")).toBeUndefined();
    expect(of(byHand(notes, [tasks("e1", task), kind("confirm", 1)]), "e1")).toEqual([task]);
    expect(of(byHand(notes, [tasks("e1", task), kind("strike", 1), kind("put-back", 1)]), "e1")).toEqual([
      task,
    ]);
  });
  test("changes nothing else, and opens a review again", () => {
    const before = byHand(notes, [{ kind: "review", by: "Ada Quill" }]);
    const after = byHand(notes, [{ kind: "review", by: "Ada Quill" }, tasks("e1", task)]);
    expect(after.log).toBe(before.log);
    expect([before.state.reviewed?.by, after.state.reviewed]).toEqual(["Ada Quill", null]);
  });
  test("of what was not understood, once it was told as a note", () => {
    const done = byHand(notes, [mend(2, "note order a fan"), tasks("e2", task)]);
    expect([done.problem, of(done, "e2")]).toEqual(["", [task]]);
  });
  const noNote = "That is no note that stands.";
  test.each<[what: string, before: (OfPlace | Amendment)[], amendment: Amendment, problem: string]>([
    ["a reading", [], tasks("e0", task), noNote],
    ["what was not understood", [], tasks("e2", task), noNote],
    ["a struck note", [kind("strike", 1)], tasks("e1", task), noNote],
    ["nobody's", [], tasks("nobody", task), noNote],
    [
      "to the last letter",
      [],
      tasks("e1", { ...task, thing: { value: "fan", span: { from: 8, to: 11 } } }),
      "",
    ],
    [
      "beyond its words",
      [],
      tasks("e1", { ...task, thing: { value: "fan", span: { from: 8, to: 12 } } }),
      "That is not in the note's words.",
    ],
    [
      "too many",
      [],
      tasks("e1", ...Array.from({ length: MOST_TASKS + 1 }, () => task)),
      `A note has at most ${MOST_TASKS} tasks, each with an action.`,
    ],
    ["so many", [], tasks("e1", ...Array.from({ length: MOST_TASKS }, () => task)), ""],
  ])("%s", (_, before, amendment, problem) => {
    const done = byHand(notes, [...before, amendment]);
    expect(done.problem).toBe(problem);
    if (problem !== "") expect(done.visit.entries).toHaveLength(byHand(notes, before).visit.entries.length);
  });
});

describe("details, by hand", () => {
  const details: Details = {
    appliance: "B-17",
    place: "Plant room",
    technician: "A. Quill",
    licence: "0417",
    firm: "Tallowbeck Heating",
    instrument: null,
  };
  test("are kept as a whole, the last word of them", () => {
    const later = { ...details, instrument: { name: "Analyser", serial: "7", calibratedOn: "2026-02-01" } };
    expect(byHand(["CO2 9.2"], []).state.details).toEqual(NO_DETAILS);
    expect(byHand(["CO2 9.2"], [{ kind: "details", details }]).state.details).toEqual(details);
    const both: Amendment[] = [
      { kind: "details", details },
      { kind: "details", details: later },
    ];
    expect(byHand(["CO2 9.2"], both).state.details).toEqual(later);
  });
  test.each<[what: string, details: Details]>([
    ["a line break", { ...details, place: "Plant\nroom" }],
    ["too long", { ...details, appliance: "x".repeat(81) }],
    ["a tab", { ...details, firm: "Tallowbeck\tHeating" }],
    ["a licence too long", { ...details, licence: "7".repeat(81) }],
    ["no day", { ...details, instrument: { name: "", serial: "", calibratedOn: "2026-02-30" } }],
  ])("%s is refused", (_, given) => {
    const done = byHand(["CO2 9.2"], [{ kind: "details", details: given }]);
    expect(done.problem).toBe("Each of the details has to be one short line.");
    expect(done.state.details).toEqual(NO_DETAILS);
  });
});

describe("judged as mended", () => {
  test("a mend by hand is judged, warned of and advised like one by voice", () => {
    const said = ["high fire CO2 9.2, CO 40"];
    const { last } = byHand(said, [mend(1, "900")]);
    if (!last?.ok) throw new Error("not taken");
    const { judgement, answer } = last.turn.reply;
    expect(judgement.warnings.map(({ code }) => code)).toContain("flue-co-over-limit");
    expect(judgement.advice.action).toBe("stop");
    expect(answer).toMatch(/^Air free C O /);
  });
  test.each<[what: string, phrases: string[], done: OfPlace, code: string | null]>([
    ["struck: until it is read again", ["high fire CO2 9.2, CO 900"], kind("strike", 1), "stop"],
    ["mended to a note: so, too", ["high fire CO2 9.2, CO 900"], mend(1, "note CO alarm chirped"), "stop"],
    ["mended to another quantity: so, too", ["high fire CO2 9.2, CO 900"], mend(1, "room CO 2"), "stop"],
    ["mended to another number: that is a reading", ["high fire CO2 9.2, CO 900"], mend(1, "90"), null],
    ["room CO mended to flue CO", ["room CO 80"], mend(0, "CO 80"), "stop"],
    ["room CO struck", ["room CO 80"], kind("strike", 0), "stop"],
  ])("a reading that stopped the work, %s", (_, phrases, done, stops) => {
    const { state, problem } = byHand(phrases, [done]);
    expect(problem).toBe("");
    expect(judge(state, [], time(4000)).advice.action === "stop").toBe(stops === "stop");
  });
});

describe("always", () => {
  const amendment = fc.oneof(
    fc.record({
      kind: fc.constantFrom("strike", "put-back", "confirm", "leave-out"),
      of: fc.nat(),
    }),
    fc.record({ kind: fc.constant("pick"), of: fc.nat(), item: anyItem }),
    fc.record({
      kind: fc.constant("mend"),
      of: fc.nat(),
      text: fc.constantFrom("9.4", "CO 14", "low fire", "quarter out", "celsius", "no", "cheese", "94"),
    }),
    fc.record({ kind: fc.constant("review"), by: fc.constant("Ada") }),
    fc.record({
      kind: fc.constant("tasks"),
      of: fc.nat(),
      tasks: fc.array(
        fc.record({
          action: fc.record({
            value: fc.constant("order"),
            span: fc.option(fc.constant({ from: 0, to: 6 })),
          }),
          thing: fc.constant(null),
          due: fc.constant(null),
          who: fc.constant(null),
          done: fc.boolean(),
        }),
        { maxLength: 2 },
      ),
    }),
    fc.record({
      kind: fc.constant("details"),
      details: fc.record({
        appliance: fc.constantFrom("B-17", "two\nlines"),
        place: fc.constant(""),
        technician: fc.constant(""),
        licence: fc.constant(""),
        firm: fc.constant(""),
        instrument: fc.constant(null),
      }),
    }),
  );
  it("an amendment keeps the log whole: old entries stay, seqs go on, targets are there, items are in order", () => {
    fc.assert(
      fc.property(anyScript, fc.array(amendment, { maxLength: 6 }), (script, amendments) => {
        let { visit } = play(script);
        const ids = visit.entries.map(({ id }) => id);
        amendments.forEach((given, place) => {
          const id = ids["of" in given ? given.of % Math.max(1, ids.length) : 0] ?? "nobody";
          const state = foldVisit(visit);
          let next = 0;
          const done = amendByHand(
            { ...given, id } as Amendment,
            state,
            (text, context) => parser.parse(text, context),
            time(9999),
            () => `h${place} ${next++}`,
          );
          if (!done.ok) {
            expect(done.problem).toMatch(/^[A-Z].*[.?]$/);
            return;
          }
          for (const entry of done.entries) expect(Entry.parse(entry)).toEqual(entry);
          visit = { ...visit, entries: [...visit.entries, ...done.entries] };
          const after = foldVisit(visit);
          expect(done.entries.reduce(step, state)).toEqual(after);
          for (const [target, tasks] of Object.entries(after.tasks)) {
            const item = after.items.find((one) => one.id === target);
            if (item?.body.kind !== "note") throw new Error(`tasks of ${JSON.stringify(item)}`);
            for (const task of tasks) expect(isWithin(task, item.body.text)).toBe(true);
          }
          const seqs = after.items.map(({ seq }) => seq);
          expect(seqs).toEqual([...seqs].sort((a, b) => a - b));
          expect(new Set(after.items.map((item) => item.id)).size).toBe(after.items.length);
          expect(visit.entries.map(({ seq }) => seq)).toEqual(visit.entries.map((_, i) => i));
        });
      }),
      { numRuns: 50 },
    );
  });
});
