import { describe, expect, test } from "vitest";
import { contextOf } from "../../../src/answer/context.ts";
import { standing, takeAmendment, takeTurn } from "../../../src/answer/turn.ts";
import { Afterwards } from "../../../src/app/afterwards/afterwards.ts";
import { utterances } from "../../../src/app/afterwards/rows.ts";
import { Session } from "../../../src/app/boiler/session.ts";
import type { Signed } from "../../../src/app/safekeeping/signing.ts";
import { warnedIn } from "../../../src/judge/raised.ts";
import { UNLINKED } from "../../../src/record/integrity/finding.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { longVisit } from "../../support/long-visit.ts";
import { reviewVisit } from "../../support/review-visit.ts";
import { parser } from "../../support/talk.ts";
import { time, typed } from "../../support/visits.ts";
import { ALONE } from "../build.ts";

/** Lets what waits go on, pieces of long work too. */
const turn = () => new Promise<void>((resolve) => setImmediate(resolve));

/** A visit opened for a review, over a disk in memory; `said` is what the voice was given. */
function opened(first: Visit, looked: Signed = { visit: first, finding: UNLINKED, trouble: null }) {
  const said: string[] = [];
  const names: string[] = [];
  const disk = { visit: first, full: false };
  let ids = 0;
  const newId = () => `n${ids++}`;
  const understand = (text: string, before: Parameters<typeof contextOf>[0]) =>
    parser.understood(text, contextOf(before));
  const open = () =>
    Session.open(disk.visit, {
      ...ALONE,
      take: (visit, phrase, now, talk, asked) => takeTurn(parser, visit, phrase, now, newId, talk, asked),
      amend: (visit, amendment, now, talk) => takeAmendment(parser, visit, amendment, now, newId, talk),
      stand: standing,
      understand,
      append: async (_, entries) => {
        if (disk.full) throw new Error("full");
        disk.visit = { ...disk.visit, entries: [...disk.visit.entries, ...entries] };
      },
      now: () => time(100_000),
      elapsed: () => 0,
      say: (text) => said.push(text),
      keepSound: () => {},
      talk: () => "normal",
      effect: async () => {},
      reason: String,
      breathe: turn,
    });
  const afterwards = new Afterwards({
    open,
    parse: (text) => parser.parse(text),
    understand,
    keepName: async (name) => void names.push(name),
    breathe: turn,
    look: async () => looked,
  });
  const judged = async () => {
    while (!afterwards.judged.value) await turn();
  };
  return { afterwards, disk, said, names, open, judged };
}

describe("a visit that is looked through", () => {
  test.each<[string, Signed["finding"], RegExp]>([
    [
      "altered",
      { kind: "altered", misfits: [{ kind: "entry", seq: 1 }] },
      /^Altered: .* Entry 2 .* is not as/,
    ],
    ["unsigned", UNLINKED, /^$/],
    ["not examined", null, /^$/],
  ])("whose log is %s says so", async (_, finding, says) => {
    const visit = reviewVisit();
    const { afterwards } = opened(visit, { visit, finding, trouble: finding ? null : "no network" });
    await afterwards.open(visit.head.id);
    await turn();
    // Its words are loaded for an altered one only.
    await expect.poll(() => afterwards.altered.value).toMatch(says);
  });

  test("has the verdict of each reading as it was judged then", async () => {
    const { afterwards, judged } = opened(reviewVisit());
    await afterwards.open("v");
    expect(afterwards.judged.value).toBe(false);
    await judged();
    const { entries } = afterwards.session.value?.visit.value ?? { entries: [] };
    const verdicts = entries.flatMap(({ id, phrase }) => {
      const verdict = afterwards.verdicts.value.get(id);
      return verdict ? [`${phrase}: ${verdict.quantity} ${verdict.value} ${verdict.verdict}`] : [];
    });
    expect(verdicts).toContain("CO2 eight point three: co2 8.3 wait");
    expect(verdicts).toContain("no, thirty five: co 35 pass");
  });
  test("a correction is stored, judged and not spoken", async () => {
    const { afterwards, disk, said, judged } = opened(reviewVisit());
    await afterwards.open("v");
    await judged();
    const reading = afterwards.session.value?.state.value.readings.at(-1);
    expect(await afterwards.amend({ kind: "mend", id: reading?.id ?? "", text: "400" })).toBeNull();
    expect(disk.visit.entries.at(-1)).toMatchObject({ body: { kind: "replace", target: reading?.id } });
    expect(afterwards.verdicts.value.get("n0")).toMatchObject({ value: 400, verdict: "fail" });
    expect(said).toEqual([]);
  });
  test("a correction while it is still gone through is judged as well", async () => {
    const { afterwards, judged } = opened(reviewVisit());
    await afterwards.open("v");
    const reading = afterwards.session.value?.state.value.readings.at(-1);
    await afterwards.amend({ kind: "mend", id: reading?.id ?? "", text: "400" });
    await judged();
    expect(afterwards.verdicts.value.get("n0")?.verdict).toBe("fail");
    expect(afterwards.verdicts.value.size).toBeGreaterThan(5);
  });
  test("what cannot be says why, and changes nothing", async () => {
    const { afterwards, disk } = opened(reviewVisit());
    await afterwards.open("v");
    const before = disk.visit;
    expect(await afterwards.amend({ kind: "strike", id: "nobody" })).toMatchObject({
      problem: "That is not in this visit.",
    });
    expect(disk.visit).toBe(before);
  });
  test("a review keeps the name for the next one, a refused one does not", async () => {
    const { afterwards, names } = opened(reviewVisit());
    await afterwards.open("v");
    await afterwards.amend({ kind: "review", by: "  " });
    expect(names).toEqual([]);
    await afterwards.amend({ kind: "review", by: " Ada Quill " });
    expect(names).toEqual(["Ada Quill"]);
    expect(afterwards.session.value?.state.value.reviewed?.by).toBe("Ada Quill");
  });
  test("words are understood one phrase after the other, and known then", async () => {
    const { afterwards } = opened(reviewVisit());
    await afterwards.open("v");
    const visit = afterwards.session.value?.visit.value;
    const [, second] = visit ? utterances(visit) : [];
    if (!second) throw new Error("no utterance");
    expect(afterwards.stretchesKnown(second)).toBeNull();
    const stretches = await afterwards.stretches(second);
    expect(stretches.map(({ from, to }) => second[0].phrase.slice(from, to))).toEqual([
      "high fire",
      "CO2 eight point two",
      "CO forty",
    ]);
    expect(afterwards.stretchesKnown(second)).toBe(stretches);
  });
  test("closed, it is gone through no further", async () => {
    const { afterwards } = opened(reviewVisit());
    await afterwards.open("v");
    afterwards.close();
    for (let i = 0; i < 50; i += 1) await turn();
    expect([afterwards.session.value, afterwards.judged.value]).toEqual([null, false]);
  });
});

describe("a long visit, opened", () => {
  test("stands at once, and its warnings come when they were gone through", async () => {
    const visit = longVisit(200);
    const { open } = opened(visit);
    const session = await open();
    expect(session.state.value.items.length).toBeGreaterThan(100);
    expect(session.warned.value.raised).toEqual([]);
    await session.caughtUp;
    expect(session.warned.value).toEqual(warnedIn(visit));
  });
  test("what is said meanwhile is answered at once, and counts after what came before it", async () => {
    const { open, said, disk } = opened(longVisit(200));
    const session = await open();
    await session.hear(typed("room CO 12"));
    expect(said[0]).toMatch(/^Room C O twelve/);
    expect(session.warned.value.raised[0]?.code).toBe("ambient-co-raised");
    await session.caughtUp;
    expect(session.warned.value).toEqual(warnedIn(disk.visit));
  });
  test("left, it is gone through no further", async () => {
    const { open } = opened(longVisit(200));
    const session = await open();
    session.leave();
    await session.caughtUp;
    expect(session.warned.value.raised).toEqual([]);
  });
});
