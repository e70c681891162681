import { describe, expect, test } from "vitest";
import { Records } from "../../../src/app/record/records.ts";
import { type Examined, UNLINKED } from "../../../src/record/integrity/finding.ts";
import type { Report } from "../../../src/record/report/parts.ts";
import { reportOf } from "../../../src/record/report/report.ts";
import { reviewVisit } from "../../support/review-visit.ts";
import { time } from "../../support/visits.ts";

/** What is found of the notebook's visit, and of any other. */
const ALTERED: Examined = {
  finding: { kind: "altered", misfits: [{ kind: "entry", seq: 1 }] },
  trouble: null,
};
const NOT_LINKED: Examined = { finding: UNLINKED, trouble: null };

function records(printer?: (report: Report) => Promise<Uint8Array>) {
  const done: string[] = [];
  const made = new Records({
    signing: {
      handOver: async (id) => {
        if (id !== "visit-1") throw new Error("No such visit");
        return { visit: reviewVisit(), ...ALTERED };
      },
      examine: async (visit) => ({ visit, ...NOT_LINKED }),
    },
    now: () => time(9000),
    breathe: async () => undefined,
    fetchAhead: async () => void done.push("fetched"),
    printer: async () => {
      done.push("loaded");
      return printer ?? (async ({ name }) => new TextEncoder().encode(name));
    },
    save: ({ name, type }) => void done.push(`saved ${name} (${type})`),
    canShare: () => true,
    share: async ({ data }) => {
      done.push(`shared ${data.length} bytes`);
      return "shared";
    },
  });
  return { made, done };
}

const look = (made: Records) => made.look("visit-1").then(() => made.ready);

test("the record is the one that is worked out at once", async () => {
  const { made } = records();
  await look(made);
  expect(made.open.value?.report).toEqual(reportOf(reviewVisit(), time(9000), ALTERED));
  made.close();
  expect(made.open.value).toBeNull();
});

test("one that is no visit of the notebook is examined, never signed", async () => {
  const { made } = records();
  made.show(reviewVisit());
  await made.ready;
  expect(made.open.value?.report).toEqual(reportOf(reviewVisit(), time(9000), NOT_LINKED));
});

test("a visit that is not there rejects, and leaves none open", async () => {
  const { made } = records();
  await look(made);
  await expect(made.look("other")).rejects.toThrow("No such visit");
  expect(made.open.value).toBeNull();
});

test("one that was closed before it was worked out does not open", async () => {
  const { made } = records();
  await made.look("visit-1");
  made.close();
  await made.ready;
  expect(made.open.value).toBeNull();
});

describe("handing over", () => {
  test("nothing where none is open", async () => {
    const { made, done } = records();
    expect([await made.save(), await made.share(), done]).toEqual([null, "dismissed", []]);
  });
  test("saved and shared: the file is made once", async () => {
    const { made, done } = records();
    await look(made);
    const name = "burnerside-record-otterfold-mill-boiler-room-2026-11-25-visit-1.pdf";
    expect([await made.save(), await made.share()]).toEqual([name, "shared"]);
    expect(done).toEqual(["fetched", "loaded", `saved ${name} (application/pdf)`, "shared 27 bytes"]);
  });
  test("of a record that is worked out anew it is made anew", async () => {
    const { made, done } = records();
    await look(made);
    await made.save();
    await look(made);
    await made.save();
    expect(done.filter((what) => what === "loaded")).toHaveLength(2);
  });
  test("where it cannot be made it rejects, and can be tried again", async () => {
    let fails = true;
    const { made } = records(async () => {
      if (fails) throw new Error("no network");
      return new Uint8Array(1);
    });
    await look(made);
    await expect(made.share()).rejects.toThrow("no network");
    expect(made.busy.value).toBe(false);
    fails = false;
    expect(await made.share()).toBe("shared");
  });
});
