import { describe, expect, test, vi } from "vitest";
import type { Helper } from "../../../src/app/office/helper.ts";
import { MOST_SENTENCES, Office } from "../../../src/app/office/office.ts";
import { NOTHING_YET, type Told } from "../../../src/app/office/take-in.ts";
import type { DoneMark, OfficeStore } from "../../../src/device/office/store.ts";
import {
  exportOf,
  judgedAnew,
  type KeptVisit,
  lineOf,
  merge,
  type Revision,
} from "../../../src/record/office/kept.ts";
import { NOTHING_FOUND } from "../../../src/record/office/log-found.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { andThen, officeVisit, upTo } from "../../support/office.ts";
import { co2, note } from "../../support/visits.ts";
import { TAKEN_AT, visitOf } from "./kept-visits.ts";

const SAID = ["order a gasket", "come back tomorrow"] as const;
const visit = (id: string, appliance = "B-17", said: string = SAID[0]) =>
  officeVisit(
    id,
    [
      [60, co2(9.2, "high")],
      [90, note(said)],
    ],
    { appliance },
  );

/** A store in memory, by the same rules; `fails` makes all of it fail. */
class Memory implements OfficeStore {
  fails = "";
  /** Ids of what an older program has judged. */
  readonly old = new Set<string>();
  change: () => void = () => undefined;
  readonly kept = new Map<string, KeptVisit>();
  readonly revisions = new Map<string, Revision[]>();
  readonly marks = new Map<string, DoneMark>();

  put(each: Visit): KeptVisit | null {
    const known = this.revisions.get(each.head.id) ?? [];
    const { kept, added } = merge(known, exportOf(each, NOTHING_FOUND, "f.json", TAKEN_AT), visitOf);
    if (added) this.revisions.set(each.head.id, [...known, added]);
    if (kept) this.kept.set(kept.id, kept);
    return kept;
  }

  async visits() {
    const whole = [...this.kept.values()].filter(({ id }) => !this.old.has(id));
    return this.#or({ whole, damaged: [...this.old] });
  }

  async judgeAnew(ids: readonly string[]) {
    for (const id of ids) {
      const { kept } = judgedAnew(this.revisions.get(id) ?? [], visitOf);
      this.kept.set(id, kept);
      this.old.delete(id);
    }
  }

  onChange(tell: () => void) {
    this.change = tell;
  }

  keep(): never {
    throw new Error("The page never stores exports itself.");
  }

  counts(): never {
    throw new Error("The page counts what it lists.");
  }

  revisionsOf(): never {
    throw new Error("The page reads one text at a time.");
  }

  ids(): never {
    throw new Error("The page has its list.");
  }

  has(): never {
    throw new Error("The page never judges.");
  }

  async standing(ids: readonly string[]) {
    return this.#or(ids.flatMap((id) => this.revisions.get(id)?.at(-1)?.text ?? []));
  }

  async text(id: string, number: number) {
    return this.#or(this.revisions.get(id)?.find((each) => each.number === number)?.text ?? null);
  }

  async dropVisit(id: string) {
    this.#or(null);
    this.kept.delete(id);
    this.revisions.delete(id);
    for (const mark of this.marks.values()) if (mark.visitId === id) this.marks.delete(mark.key);
  }

  async dropAll() {
    this.#or(null);
    for (const table of [this.kept, this.revisions, this.marks]) table.clear();
  }

  async done() {
    return this.#or([...this.marks.values()]);
  }

  async markDone(mark: DoneMark) {
    this.#or(null);
    this.marks.set(mark.key, mark);
  }

  async undoDone(key: string) {
    this.#or(null);
    this.marks.delete(key);
  }

  #or<T>(value: T): T {
    if (this.fails) throw new Error(this.fails);
    return value;
  }
}

interface Given {
  readonly visits?: readonly Visit[];
  readonly helper?: Partial<Helper>;
}

function office({ visits = [], helper = {} }: Given = {}) {
  const store = new Memory();
  for (const each of visits) store.put(each);
  const downloads: [string, string][] = [];
  const whole: Helper = {
    take: async () => false,
    stop: () => undefined,
    judgeAnew: (ids) => store.judgeAnew(ids),
    export: async (_, ids) => new Blob([ids.join(" ")]),
    ...helper,
  };
  const model = new Office({
    store,
    helper: whole,
    now: () => TAKEN_AT,
    today: () => "2026-11-26",
    visitOf,
    download: (name, blob) => void blob.text().then((text) => downloads.push([name, text])),
    reason: (error) => (error instanceof Error ? error.message : String(error)),
  });
  return { model, store, downloads };
}

const VISITS = { kind: "visits" } as const;
const FILES = [new File(["{}"], "a.json")];

describe("taking in", () => {
  const told = (change: Partial<Told> = {}): Told => ({
    progress: { ...NOTHING_YET, files: 1, of: 1 },
    changed: [],
    sentences: [],
    ...change,
  });

  test("what was taken in is in the list when it is over, and how it went is told", async () => {
    const made = new Memory().put(visit("a"));
    const { model } = office({
      helper: {
        take: async (_, tell) => {
          tell(told({ changed: made ? [made] : [] }));
          return false;
        },
      },
    });
    await model.takeIn(FILES);
    expect(model.shown.value.map(({ id }) => id)).toEqual(["a"]);
    expect(model.taking.value).toMatchObject({ stand: "done", progress: { files: 1 }, failure: "" });
    model.closeTaking();
    expect(model.taking.value).toBeNull();
  });

  test("the first sentences are kept, of the others their number", async () => {
    const sentences = Array.from({ length: 70 }, (_, number) => `${number}.json: bad.`);
    const { model } = office({
      helper: {
        take: async (_, tell) => {
          for (const each of sentences) tell(told({ sentences: [each] }));
          return false;
        },
      },
    });
    await model.takeIn(FILES);
    expect(model.taking.value?.sentences).toEqual(sentences.slice(0, MOST_SENTENCES));
  });

  test("stopped, and failed, are told", async () => {
    const stopped = office({ helper: { take: async () => true } });
    await stopped.model.takeIn(FILES);
    expect(stopped.model.taking.value?.stand).toBe("stopped");
    const failed = office({ helper: { take: () => Promise.reject(new Error("no room")) } });
    await failed.model.takeIn(FILES);
    expect(failed.model.taking.value).toMatchObject({ stand: "failed", failure: "no room" });
  });

  test("a drop that cannot be read is told", async () => {
    const { model } = office();
    await model.takeIn(Promise.reject(new Error("the folder is gone")));
    expect([model.problem.value, model.taking.value]).toEqual(["The folder is gone.", null]);
  });

  test("one at a time, and nothing for no files", async () => {
    let runs = 0;
    let end: (stopped: boolean) => void = () => undefined;
    const { model } = office({
      helper: {
        take: () => {
          runs += 1;
          return new Promise((resolve) => {
            end = resolve;
          });
        },
      },
    });
    await model.takeIn([]);
    expect(model.taking.value).toBeNull();
    const first = model.takeIn(FILES);
    await model.takeIn(FILES);
    model.closeTaking();
    expect([runs, model.taking.value?.stand]).toEqual([1, "running"]);
    expect(model.problem.value).toBe(
      "Files are being taken in: hand over more when that is done, or stop it.",
    );
    end(false);
    await first;
    expect(model.taking.value?.stand).toBe("done");
  });
});

describe("one visit", () => {
  const whole = visit("a");

  test("is shown as it stands, and in each revision", async () => {
    const { model } = office({ visits: [upTo(whole, 1), whole] });
    await model.open({ kind: "visit", id: "a" });
    expect(model.opened.value).toMatchObject({ number: 2, visit: whole });
    await model.show("a", 1);
    expect(model.opened.value).toMatchObject({ number: 1, visit: upTo(whole, 1) });
    await model.open(VISITS);
    expect(model.opened.value).toBeNull();
  });

  test("that is not there is none", async () => {
    const { model } = office();
    await model.open({ kind: "visit", id: "b" });
    expect([model.opened.value, model.problem.value]).toEqual([null, ""]);
  });

  test("is deleted with what was marked as done", async () => {
    const { model, store } = office({ visits: [whole, visit("b")] });
    await model.open(VISITS);
    for (const { followUp } of model.followUps.value) await model.markDone(followUp, "M.");
    expect(store.marks.size).toBe(2);
    expect(await model.drop("a")).toBe(true);
    expect(model.visits.value.map(({ id }) => id)).toEqual(["b"]);
    expect([...store.marks.values()].map(({ visitId }) => visitId)).toEqual(["b"]);
    expect(await model.dropAll()).toBe(true);
    expect([model.visits.value, store.revisions.size, store.marks.size]).toEqual([[], 0, 0]);
  });
});

describe("follow-ups of all visits", () => {
  test("the earliest day first, those without one last; done ones behind, with day and name", async () => {
    const { model } = office({ visits: [visit("a"), visit("b", "B-4", SAID[1])] });
    await model.open(VISITS);
    const short = () =>
      model.followUps.value.map(({ followUp, stand, done }) => [followUp.short, stand, done?.by ?? null]);
    // The visits are on 25 November 2026; today is the 26th.
    expect(short()).toEqual([
      ["Come back", "today", null],
      ["Order gasket", "undated", null],
    ]);
    const [first] = model.followUps.value;
    if (!first) throw new Error("Expected a follow-up.");
    await model.markDone(first.followUp, "  M. Office ");
    expect(short()).toEqual([
      ["Order gasket", "undated", null],
      ["Come back", "today", "M. Office"],
    ]);
    expect(model.visits.value.map(({ openFollowUps }) => openFollowUps)).toEqual([1, 0]);
    await model.undoDone(first.followUp);
    expect(short()[0]).toEqual(["Come back", "today", null]);
  });

  test("a mark stays when the visit goes on", async () => {
    const { model, store } = office({ visits: [visit("a")] });
    await model.open(VISITS);
    const [first] = model.followUps.value;
    if (first) await model.markDone(first.followUp, "M.");
    store.put(andThen(visit("a"), { kind: "reviewed", by: "R." }));
    store.change();
    await model.open(VISITS);
    expect(model.followUps.value.map(({ done }) => done?.by)).toEqual(["M."]);
  });
});

describe("the list", () => {
  test("is read once, and again when somebody else has changed what is kept", async () => {
    const { model, store } = office({ visits: [visit("a")] });
    await model.open(VISITS);
    store.put(visit("b"));
    await model.open(VISITS);
    expect(model.visits.value.map(({ id }) => id)).toEqual(["a"]);
    store.change();
    await model.open(VISITS);
    expect(model.visits.value.map(({ id }) => id)).toEqual(["a", "b"]);
  });

  test("has judged anew what an older program has judged, and tells so meanwhile", async () => {
    const told: number[] = [];
    const { model, store } = office({
      visits: [visit("a"), visit("b")],
      helper: {
        judgeAnew: async (ids) => {
          told.push(model.judgingAnew.value);
          await store.judgeAnew(ids);
        },
      },
    });
    store.old.add("b");
    await model.open(VISITS);
    await vi.waitFor(() => expect(model.visits.value.map(({ id }) => id)).toEqual(["a", "b"]));
    expect([model.problem.value, model.judgingAnew.value, told]).toEqual(["", 0, [1]]);
  });

  test("tells of what cannot be judged any more", async () => {
    const { model, store } = office({
      visits: [visit("a"), visit("b")],
      helper: { judgeAnew: async () => undefined },
    });
    store.old.add("b");
    await model.open(VISITS);
    expect(model.visits.value.map(({ id }) => id)).toEqual(["a"]);
    await vi.waitFor(() =>
      expect(model.problem.value).toBe(
        "What the office keeps of one visit is damaged and not shown: take the files in again.",
      ),
    );
  });
});

test("appliances by number, however it was written; visits without one are told", async () => {
  const { model } = office({ visits: [visit("a", "B-17"), visit("b", " b - 17"), visit("c", "")] });
  await model.open(VISITS);
  expect(model.histories.value.map(({ points }) => points.length)).toEqual([2]);
  expect(model.history("B-17")?.points).toHaveLength(2);
  expect(model.history("B-18")).toBeNull();
  expect(model.unnumbered.value.map(({ id }) => id)).toEqual(["c"]);
});

test("what is shown is handed over in its order", async () => {
  const { model, downloads } = office({ visits: [visit("a"), visit("b", "B-4")] });
  await model.open(VISITS);
  model.narrow({ words: "b-4" });
  const ids = model.shown.value.map(({ id }) => id);
  await model.export("bundles", ids, "some.jsonl");
  await Promise.resolve();
  expect(downloads).toEqual([["some.jsonl", "b"]]);
  expect([model.said.value, model.exporting.value]).toEqual(["Exported: some.jsonl", null]);
});

test("a column is sorted by, then the other way; the day begins with the newest", () => {
  const { model } = office();
  model.sortBy("place");
  expect(model.sorting.value).toEqual({ column: "place", descending: false });
  model.sortBy("place");
  expect(model.sorting.value).toEqual({ column: "place", descending: true });
  model.sortBy("day");
  expect(model.sorting.value).toEqual({ column: "day", descending: true });
});

test("what fails is told in a sentence and changes nothing", async () => {
  const { model, store } = office({ visits: [visit("a")] });
  await model.open(VISITS);
  store.fails = "the disk is gone";
  expect(await model.drop("a")).toBe(false);
  expect(model.problem.value).toBe("The disk is gone.");
  expect(model.visits.value).toHaveLength(1);
});

test("a revision's text is what the bundle was", () => {
  const whole = visit("a");
  expect(visitOf(lineOf(whole))).toEqual(whole);
});
