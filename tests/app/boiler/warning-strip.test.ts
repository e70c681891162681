import { describe, expect, test } from "vitest";
import { warnedIn } from "../../../src/judge/raised.ts";
import { Boiler } from "../boiler.ts";

const EARLY = "read-too-early";
const codes = (boiler: Boiler) => boiler.lines.map(({ code }) => code);

/** A turn, and a reading that comes too early: a warning that stops nothing. */
const early = () => new Boiler().at(10, "high fire", "half a turn clockwise").then((b) => b.at(20, "CO2 9"));

describe("a warning is shown until acknowledged", () => {
  test("while it is large on the plate it is not in the strip as well, but can be acknowledged", async () => {
    const boiler = await early();
    expect(boiler.onPlate).toContain(EARLY);
    expect([codes(boiler), boiler.strip.canAcknowledge]).toEqual([[], true]);
  });

  test("then it goes to the strip, with when it was given, over a reload", async () => {
    const boiler = await early();
    await boiler.at(30, "note: trap is dry");
    const lines = [
      {
        topic: `${EARLY} `,
        code: EARLY,
        text: "Too early: wait 50 seconds more.",
        time: "08:00:20",
        times: 1,
      },
    ];
    expect(boiler.lines).toEqual(lines);
    expect(boiler.reload(40).lines).toEqual(lines);
  });

  test("a wait that is over leaves it, and the record keeps it", async () => {
    const boiler = await early();
    await boiler.at(30, "note: trap is dry");
    expect(codes(boiler)).toEqual([EARLY]);
    await boiler.at(69, "what is next");
    expect(codes(boiler)).toEqual([EARLY]);
    await boiler.at(70, "what is next");
    expect(boiler.strip).toMatchObject({ lines: [], canAcknowledge: false });
    expect(boiler.session.warned.value.raised.map(({ code }) => code)).toContain(EARLY);
    expect(boiler.reload(200).lines).toEqual([]);
  });

  test("so does one whose reading was struck", async () => {
    const boiler = await early();
    await boiler.at(30, "scratch that");
    expect(codes(boiler)).toEqual([]);
  });

  test("what the end found open leaves it when it is closed, or the visit is open again", async () => {
    const finished = () => new Boiler({ closing: ["panel"] }).at(10, "finish visit", "what is next");
    const boiler = await finished();
    expect([...boiler.onPlate, ...codes(boiler)]).toContain("left-open");
    await boiler.at(20, "panel is on");
    expect(codes(boiler)).toEqual(["left-unproved"]);
    const again = await finished();
    await again.at(20, "note: trap is dry");
    expect(codes(again)).toEqual(again.session.state.value.finished ? ["left-unproved", "left-open"] : []);
    await again.at(30, "high fire CO2 nine");
    expect(again.session.state.value.finished).toBe(false);
    expect(codes(again)).toEqual([]);
  });

  test("acknowledged, it is gone, over a reload", async () => {
    const boiler = await early();
    await boiler.at(30, "note: trap is dry", "acknowledged");
    expect(boiler.strip).toMatchObject({ lines: [], canAcknowledge: false });
    expect(boiler.reload(200).strip).toMatchObject({ lines: [], canAcknowledge: false });
  });

  test("what stops the work stays on the plate and has nothing left to acknowledge", async () => {
    const boiler = await new Boiler().at(10, "room CO eighty", "acknowledged", "note: trap is dry");
    expect(boiler.onPlate).toEqual(["ambient-co-evacuate"]);
    expect(boiler.strip).toMatchObject({ lines: [], canAcknowledge: false });
  });

  test("a stop that was taken back is shown until acknowledged", async () => {
    const boiler = await new Boiler().at(10, "room CO eighty", "room CO two");
    expect(boiler.onPlate).toEqual([]);
    expect(codes(boiler)).toEqual(["ambient-co-evacuate"]);
    await boiler.at(20, "acknowledged");
    expect(codes(boiler)).toEqual([]);
  });
});

test("several are shown gravest first, and one code once, as given last", async () => {
  const boiler = await early();
  await boiler.at(25, "CO2 9.1");
  await boiler.at(30, "two turns clockwise", "room CO eighty", "room CO two");
  expect(codes(boiler)).toEqual(["ambient-co-evacuate", "step-too-large", EARLY]);
  expect(boiler.lines.at(-1)).toMatchObject({ text: "Too early: wait 45 seconds more.", times: 2 });
  expect(boiler.lines[0]?.text).toMatch(/^Room CO 80/);
});

test("of two firings with CO over its limit, neither hides the other", async () => {
  // High fire too rich: it does not stop; low fire in its band: it does.
  const boiler = await new Boiler().at(10, "high fire CO2 ten, CO two hundred");
  await boiler.at(60, "low fire CO2 nine point six, CO three hundred");
  const over = "flue-co-over-limit";
  const [high, low] = [
    { code: over, text: "CO over the limit at high fire.", times: 1 },
    { code: over, text: "CO over the limit at low fire. Get help.", times: 1 },
  ];
  const texts = () => boiler.session.given.value.reply.judgement.warnings.map(({ text }) => text);
  expect(texts()).toContain("C O over the limit at low fire. Get help.");
  expect(boiler.lines).toEqual([expect.objectContaining(high)]);
  // Low fire read anew: both are still to be acknowledged.
  await boiler.at(120, "CO forty");
  expect(texts()).toEqual([]);
  expect(boiler.lines.filter(({ code }) => code === over)).toEqual([
    expect.objectContaining(high),
    expect.objectContaining(low),
  ]);
  await boiler.at(130, "acknowledged");
  expect(boiler.lines).toEqual([]);
});

test("while the burner has to be shut down that is shown, acknowledged or not, until the screw was turned", async () => {
  const boiler = await new Boiler().at(10, "high fire CO2 ten point five, CO fourteen hundred");
  expect(boiler.onPlate).toContain("flue-co-air-free-over-400");
  await boiler.at(20, "acknowledged");
  await boiler.at(30, "note: trap is dry");
  const shown = [...boiler.lines.map(({ code }) => code), ...boiler.onPlate];
  expect(shown).toContain("flue-co-air-free-over-400");
  await boiler.at(40, "half a turn counterclockwise", "acknowledged");
  expect(boiler.lines).toEqual([]);
});

test("a warning is news with the reply that brings it, not when it stands on or after a reload", async () => {
  const boiler = await new Boiler().at(10, "room CO eighty");
  expect(boiler.strip.isNews).toBe(true);
  await boiler.at(20, "note: trap is dry");
  expect(boiler.strip.isNews).toBe(false);
  expect(boiler.reload(30).strip.isNews).toBe(false);
});

test("kept phrase by phrase, the warnings are those of a replay", async () => {
  const boiler = await early();
  await boiler.at(
    30,
    "what is next",
    "room CO eighty",
    "acknowledged",
    "two turns clockwise",
    "hand me the key",
  );
  await boiler.at(200, "CO2 9.2, CO forty", "room CO two", "acknowledged", "room CO eighty");
  const { warned, visit } = boiler.session;
  expect(warned.value.raised.length).toBeGreaterThan(3);
  expect(warned.value).toEqual(warnedIn(visit.value));
});
