import { expect, test } from "vitest";
import { sheetRows } from "../../../src/app/sheets/order.ts";
import { StartDesk } from "../../../src/app/start/desk.ts";
import { loadStartLanguage } from "../../../src/cli/language.ts";
import { chooseStart, startMeaning } from "../../../src/meaning/start.ts";
import { NATURAL_GAS, sheet } from "../../support/sheets.ts";
import { puppetEar, settled, utterance } from "../puppet-ear.ts";

const { piece } = loadStartLanguage();
const ONE = sheet({ id: "one", title: "One", fuels: { "natural-gas": NATURAL_GAS } });
const BOTH = sheet({ id: "two", title: "Two" });

function desk() {
  const puppet = puppetEar();
  const spoken: string[] = [];
  const started: unknown[] = [];
  const names: unknown[] = [];
  const made = new StartDesk({
    speaker: { speak: async (text) => void spoken.push(text), cancel: () => undefined },
    rows: () => sheetRows([ONE, BOTH], [ONE, BOTH], []),
    means: (text) => startMeaning(piece, text),
    choose: (one) => chooseStart(piece, one),
    headset: () => false,
    ear: async () => puppet.ear,
    start: async ({ sheet: chosen, fuel }, given, heard) => {
      names.push(given);
      const id = chosen === null || chosen === "none" ? chosen : chosen.id;
      started.push([id, fuel, given.title, heard]);
    },
  });
  made.reset();
  return { desk: made, puppet, spoken, started, names };
}

test("taps: nothing starts while something is missing", async () => {
  const { desk: taps, started } = desk();
  await taps.go();
  taps.pick(BOTH);
  expect(taps.missing.value).toBe("fuel");
  await taps.go();
  expect(started).toEqual([]);
  taps.pickFuel("propane");
  taps.title.value = "  Mill  ";
  await taps.go();
  expect(started).toEqual([["two", "propane", "Mill", false]]);
});

test("what is typed for the record goes with it, and is gone with a new choice", async () => {
  const { desk: taps, names } = desk();
  taps.pick(ONE);
  taps.appliance.value = "B-7";
  taps.site.value = "Mill lane";
  await taps.go();
  taps.reset();
  taps.pick(ONE);
  await taps.go();
  expect(names).toEqual([
    { title: "", appliance: "B-7", place: "Mill lane" },
    { title: "", appliance: "", place: "" },
  ]);
});

test("another sheet takes its own gas, or none", () => {
  const { desk: taps } = desk();
  taps.pick(BOTH);
  taps.pickFuel("propane");
  taps.pick(ONE);
  expect(taps.choice.value).toEqual({ sheet: ONE, fuel: "natural-gas" });
  taps.pick(BOTH);
  expect(taps.choice.value).toEqual({ sheet: BOTH, fuel: null });
});

test("typed sentences are answered on the screen, not aloud", async () => {
  const { desk: typed, spoken, started } = desk();
  await typed.type("sheet two go");
  expect(typed.said.value).toEqual({ text: "sheet two go", answer: "Sheet 2, Two. Which gas?" });
  await typed.type("propane go");
  expect([spoken, started]).toEqual([[], [["two", "propane", "", false]]]);
});

test("spoken ones are answered aloud, and the microphone is let go before the visit starts", async () => {
  const { desk: heard, puppet, spoken, started } = desk();
  await heard.switchEar();
  puppet.hears(utterance("sheet two"));
  await settled();
  expect(spoken).toEqual(["Sheet two, Two. Which gas?"]);
  expect(started).toEqual([]);
  puppet.hears(utterance("natural gas go"));
  await settled();
  expect(started).toEqual([["two", "natural-gas", "", true]]);
  expect(puppet.listens()).toBe(false);
});

test.each([
  [0.84, []],
  [0.85, [["one", "natural-gas", "", true]]],
])("a whole sentence heard with confidence %d", async (confidence, expected) => {
  const { desk: heard, puppet, started } = desk();
  await heard.switchEar();
  puppet.hears(utterance("sheet one natural gas go", confidence));
  await settled();
  expect(started).toEqual(expected);
  expect(heard.choice.value).toEqual({ sheet: ONE, fuel: "natural-gas" });
});

test("talk that is not for it chooses nothing and says nothing", async () => {
  const { desk: heard, puppet, spoken } = desk();
  await heard.switchEar();
  puppet.hears(utterance("sheet two", 0.2, { rejected: true }));
  await settled();
  expect([heard.choice.value, heard.said.value, spoken]).toEqual([{ sheet: null, fuel: null }, null, []]);
  expect(heard.listening.ignored.value).toBe(1);
});

test("leaving the page lets the microphone go", async () => {
  const { desk: heard, puppet } = desk();
  await heard.switchEar();
  expect(puppet.listens()).toBe(true);
  await heard.leave();
  expect(puppet.listens()).toBe(false);
});
