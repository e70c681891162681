import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { Exports } from "../../../src/app/exports/exports.ts";
import { ABOUT, EXPORT_KINDS } from "../../../src/app/exports/kinds.ts";
import { reasonOf } from "../../../src/device/notebook/trouble.ts";
import { exportVisit } from "../../../src/record/bundle.ts";
import { NONE_DONE } from "../../../src/record/export/done-marks.ts";
import { type Examined, UNLINKED } from "../../../src/record/integrity/finding.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { talk } from "../../support/talk.ts";

const NOW = "2026-11-25T12:00:00.000Z";
const said = (...phrases: readonly string[]): Visit => talk(phrases, { title: "Mill" }).visit;

const NOT_SIGNED: Examined = { finding: UNLINKED, trouble: null };

/** What was downloaded, in place of the browser's downloads. */
let saved: { name: string; text: string }[] = [];

beforeEach(() => {
  saved = [];
  const blobs = new Map<string, Blob>();
  vi.stubGlobal("URL", {
    createObjectURL: (blob: Blob) => {
      blobs.set(`blob:${blobs.size}`, blob);
      return `blob:${blobs.size - 1}`;
    },
    revokeObjectURL: () => undefined,
  });
  vi.stubGlobal("document", {
    createElement: () => ({
      href: "",
      download: "",
      click() {
        const name = this.download;
        void blobs
          .get(this.href)
          ?.text()
          .then((text) => saved.push({ name, text }));
      },
    }),
  });
  vi.stubGlobal("navigator", {});
});
afterEach(() => vi.unstubAllGlobals());

const exportsOf = (visit: () => Promise<Visit>, examined: Examined = NOT_SIGNED) =>
  new Exports({
    visit,
    handOver: async () => ({ visit: await visit(), ...examined }),
    done: () => NONE_DONE,
    handed: async () => undefined,
    now: () => NOW,
    reason: reasonOf,
  });
const of = (visit: Visit) => exportsOf(async () => visit);

describe("what there is to hand over", () => {
  test.each<[string, Visit, boolean]>([
    ["a note that asks for something", said("note order a condensate trap gasket"), true],
    ["a note that asks for nothing", said("note the paint is green"), false],
    ["a note that was struck", said("note order a condensate trap gasket", "scratch that"), false],
    ["no note", said("high fire CO2 nine point two"), false],
  ])("%s: a calendar %s", async (_what, visit, hasCalendar) => {
    const exports = of(visit);
    expect(exports.kinds.value).toBeNull();
    await exports.look();
    expect(exports.kinds.value).toEqual(EXPORT_KINDS.filter((kind) => kind !== "follow-ups" || hasCalendar));
  });
});

describe("saving", () => {
  test("tells the file's name, which bears the visit's title and the kind's ending", async () => {
    const visit = said("high fire CO2 nine point two", "note order a condensate trap gasket");
    const exports = of(visit);
    for (const kind of ["bundle", "table", "columns", "follow-ups"] as const) {
      await exports.save(kind);
      const name = exports.told.value?.sentence.replace("Saved: ", "") ?? "";
      expect(exports.told.value?.kind).toBe("done");
      expect(name).toMatch(new RegExp(`^burnerside-${ABOUT[kind].word}-mill-.*\\.${ABOUT[kind].ending}$`));
      await vi.waitFor(() => expect(saved.map((each) => each.name)).toContain(name));
    }
    expect(saved[0]?.text).toBe(exportVisit(visit));
  });

  test.each<[what: string, examined: Examined, told: RegExp]>([
    [
      "could not be signed",
      { finding: UNLINKED, trouble: "no keys here" },
      /\.json\. It is not signed: no keys here\.$/,
    ],
    [
      "is altered",
      { finding: { kind: "altered", misfits: [{ kind: "head" }] }, trouble: null },
      /\.json\. Its log is altered: what the visit began with .* is not as it was logged\.$/,
    ],
    [
      "could not be examined",
      { finding: null, trouble: "no network" },
      /\.json\. Its log could not be examined: no network\.$/,
    ],
    ["is as it should be", NOT_SIGNED, /\.json$/],
  ])("of a bundle that %s that is told, and it is handed over all the same", async (_, examined, told) => {
    const exports = exportsOf(async () => said("high fire CO2 nine point two"), examined);
    await exports.save("bundle");
    expect(exports.told.value).toEqual({ kind: "done", sentence: expect.stringMatching(told) });
    await exports.save("table");
    expect(exports.told.value?.sentence).toMatch(/\.csv$/);
  });

  test("what cannot be read is told, and the next is tried anew", async () => {
    let isThere = false;
    const exports = exportsOf(async () => {
      if (!isThere) throw new Error("Visit v1 cannot be read.");
      return said("high fire CO2 nine point two");
    });
    await exports.look();
    expect([exports.kinds.value, exports.told.value]).toEqual([
      null,
      { kind: "problem", sentence: "Visit v1 cannot be read." },
    ]);
    isThere = true;
    await exports.save("table");
    expect(exports.told.value).toMatchObject({ kind: "done" });
  });

  test("a tap while a file is made is passed over", async () => {
    let asked = 0;
    const exports = exportsOf(async () => {
      asked += 1;
      return said("high fire CO2 nine point two");
    });
    await Promise.all([exports.save("table"), exports.save("bundle")]);
    expect([asked, exports.busy.value]).toEqual([1, false]);
  });
});
