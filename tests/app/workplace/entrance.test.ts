import { signal } from "@preact/signals";
import { describe, expect, test } from "vitest";
import type { Place } from "../../../src/app/place.ts";
import { Entrance } from "../../../src/app/workplace/entrance.ts";
import { Notices } from "../../../src/app/workplace/notices.ts";

const RECORD: Place = { kind: "record", visitId: "v" };
const OFFICE: Place = { kind: "office", part: { kind: "visits" } };

/** An entrance whose rooms only say what was done in them. `fails`: what of that does not work. */
function entrance({ runs = false, welcomed = true, at = "", fails = "", holds = false } = {}) {
  const isHolding = signal(holds);
  const done: string[] = [];
  const does = async (what: string) => {
    done.push(what);
    if (what === fails) throw new Error("the notebook is gone");
  };
  const notices = new Notices();
  const exporting = signal<string | null>("v");
  const made = new Entrance({
    running: {
      look: async () => runs,
      open: async () => {
        await does("open boiler");
        return runs;
      },
      close: () => does("close boiler"),
      isHolding,
    },
    opened: {
      closeAfterwards: () => does("close afterwards"),
      closeRecord: () => void done.push("close record"),
      lookThrough: (id) => does(`look through ${id}`),
      openOffice: (part) => does(`open office ${part.kind}`),
      openRecord: (id) => does(`open record ${id}`),
    },
    handingOver: { exporting },
    notices,
    address: { read: () => at, open: () => {}, replace: () => {}, onChange: () => {} },
    isWelcomed: () => welcomed,
  });
  return { made, done, notices, exporting, isHolding };
}

describe("what comes first", () => {
  test.each([
    ["the address's place", {}, null],
    ["the first-run page", { welcomed: false }, { kind: "welcome" }],
    ["the boiler, after the device died there", { runs: true }, { kind: "boiler" }],
    ["not the boiler, where another place is asked for", { runs: true, at: "/sheets" }, null],
    ["the office, past the first-run page", { welcomed: false, at: "/office" }, null],
  ])("%s", async (_, given, place) => expect(await entrance(given).made.first()).toEqual(place));
});

describe("from one screen to the next", () => {
  test.each<[string, Parameters<typeof entrance>[0], Place, Place, string[]]>([
    ["the start", {}, { kind: "start" }, { kind: "start" }, ["close boiler", "close record"]],
    ["a record", {}, RECORD, RECORD, ["close boiler", "close record", "open record v"]],
    ["the office", {}, OFFICE, OFFICE, ["close boiler", "close record", "open office visits"]],
    ["the boiler", { runs: true }, { kind: "boiler" }, { kind: "boiler" }, ["open boiler", "close record"]],
    ["the boiler without a visit: the start", {}, { kind: "boiler" }, { kind: "start" }, ["open boiler"]],
  ])("%s", async (_, given, wanted, shown, done) => {
    const room = entrance(given);
    expect(await room.made.enter(wanted)).toEqual(shown);
    expect(room.done).toEqual(["close afterwards", ...done]);
    expect(room.exporting.value).toBeNull();
  });

  test("what cannot be opened is told, and the start is shown", async () => {
    const { made, notices } = entrance({ fails: "open record v" });
    expect(await made.enter(RECORD)).toEqual({ kind: "start" });
    expect(notices.shown.value).toEqual({ kind: "problem", sentences: ["The notebook is gone."] });
  });

  test("a visit with what is not saved is not left, and that is told", async () => {
    const { made, done, notices, isHolding } = entrance({ runs: true, holds: true });
    expect(await made.enter({ kind: "start" })).toEqual({ kind: "boiler" });
    expect(done).toEqual([]);
    expect(notices.shown.value?.sentences).toEqual([expect.stringContaining("is not saved")]);
    isHolding.value = false;
    expect(await made.enter({ kind: "start" })).toEqual({ kind: "start" });
    expect(notices.shown.value).toBeNull();
  });

  test("what was done is no news on the next screen, what went wrong is", async () => {
    const { made, notices } = entrance();
    notices.problem(["Not saved."]);
    await made.enter(RECORD);
    expect(notices.shown.value?.sentences).toEqual(["Not saved."]);
    notices.done("Saved.");
    await made.enter(RECORD);
    expect(notices.shown.value).toBeNull();
  });

  test("who came to the office past the first-run page gets to nothing else before it", async () => {
    const { made } = entrance({ welcomed: false, at: "/office" });
    await made.first();
    expect(await made.enter(RECORD)).toEqual({ kind: "welcome" });
    expect(await made.enter(OFFICE)).toEqual(OFFICE);
  });
});
