import { describe, expect, test } from "vitest";
import { VisitSummaries } from "../../../src/app/start/visit-summaries.ts";
import { summaryOf } from "../../../src/app/start/visit-summary.ts";
import { NO_DETAILS } from "../../../src/visit/details.ts";
import type { EntryBody } from "../../../src/visit/entry.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { sheet } from "../../support/sheets.ts";
import { reading, visitOf } from "../build.ts";

const NOW = "2026-11-25T10:00:00.000Z";
const done = (item: "low-fire-cap" | "test-mode-off" | "test-port"): EntryBody => ({
  kind: "check",
  item,
  done: true,
});
const FINISHED: EntryBody = { kind: "mark", mark: "finished" };
const onSheet = (...bodies: readonly EntryBody[]): Visit => {
  const visit = visitOf(...bodies);
  // Its closing checks: low-fire cap, test mode, test port.
  return { ...visit, head: { ...visit.head, sheet: sheet() } };
};

// Not read or not proved, each firing: one thing (open.test.ts).
test.each<[string, Visit, ReturnType<typeof summaryOf>]>([
  ["just begun", onSheet(), { finished: false, readings: 0, open: 5, reviewedBy: null, appliance: "" }],
  [
    "without a sheet all seven checks are open",
    visitOf(),
    { finished: false, readings: 0, open: 7, reviewedBy: null, appliance: "" },
  ],
  [
    "readings",
    onSheet(reading(), reading({ quantity: "co", value: 40, unit: "[ppm]" })),
    { finished: false, readings: 2, open: 4, reviewedBy: null, appliance: "" },
  ],
  [
    "a struck reading does not count",
    onSheet(reading(), { kind: "strike", target: "e0" }),
    { finished: false, readings: 0, open: 5, reviewedBy: null, appliance: "" },
  ],
  [
    "closed and finished",
    onSheet(reading(), done("low-fire-cap"), done("test-mode-off"), done("test-port"), FINISHED),
    { finished: true, readings: 1, open: 2, reviewedBy: null, appliance: "" },
  ],
  [
    "finished with a plug open",
    onSheet(reading(), done("low-fire-cap"), done("test-mode-off"), FINISHED),
    { finished: true, readings: 1, open: 3, reviewedBy: null, appliance: "" },
  ],
  [
    "found right, and finished",
    onSheet(reading(), FINISHED, { kind: "reviewed", by: "ab" }),
    { finished: true, readings: 1, open: 5, reviewedBy: "ab", appliance: "" },
  ],
  [
    "work after that",
    onSheet(FINISHED, reading()),
    { finished: false, readings: 1, open: 5, reviewedBy: null, appliance: "" },
  ],
  [
    "a question without an answer",
    onSheet({
      kind: "unsure",
      unsure: {
        text: "nine",
        reason: "what was read?",
        candidates: [],
        question: { asks: "quantity", value: 9, unit: null },
      },
    }),
    { finished: false, readings: 0, open: 6, reviewedBy: null, appliance: "" },
  ],
])("%s", (_, visit, summary) => expect(summaryOf(visit, NOW)).toEqual(summary));

describe("summaries are read when wanted", () => {
  const store = () => {
    const asked: string[] = [];
    const summaries = new VisitSummaries(
      {
        visit: async (id) => {
          asked.push(id);
          if (id === "torn") throw new Error("damaged");
          return onSheet(reading());
        },
      },
      () => NOW,
    );
    return { asked, summaries };
  };
  test("once each, and a damaged one as that", async () => {
    const { asked, summaries } = store();
    await summaries.want(["a", "torn"]);
    await summaries.want(["a", "torn", "b"]);
    expect(asked).toEqual(["a", "torn", "b"]);
    expect(summaries.known.value.get("torn")).toBeNull();
    expect(summaries.known.value.get("b")).toEqual({
      finished: false,
      readings: 1,
      open: 5,
      reviewedBy: null,
      appliance: "",
    });
  });
  test("the appliances of all that are known, each once, in order", async () => {
    const numbers: Record<string, string> = { a: "B-7", b: "A-1", c: "", d: "B-7" };
    const summaries = new VisitSummaries(
      {
        visit: async (id) => {
          const details = { ...NO_DETAILS, appliance: numbers[id] ?? "" };
          return visitOf({ kind: "details", details });
        },
      },
      () => NOW,
    );
    expect(summaries.appliances()).toEqual([]);
    await summaries.want(["a", "b", "c", "d"]);
    expect(summaries.appliances()).toEqual(["A-1", "B-7"]);
  });
  test("anew when visits may have gone on", async () => {
    const { asked, summaries } = store();
    await summaries.want(["a"]);
    summaries.forget();
    await summaries.want(["a"]);
    expect(asked).toEqual(["a", "a"]);
  });
  test("a later list ends the reading for the one before", async () => {
    const { asked, summaries } = store();
    await Promise.all([summaries.want(["a", "b", "c"]), summaries.want(["d"])]);
    expect(asked).toEqual(["a", "d"]);
  });
});
