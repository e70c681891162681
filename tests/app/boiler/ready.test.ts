import { describe, expect, test } from "vitest";
import { setInWords } from "../../../src/app/boiler/ready.ts";
import { Boiler } from "../boiler.ts";

// The sheet's settle time is 60 s for both screws; the turn is at 10 s, so readings count from 70 s.

const turned = () =>
  new Boiler().at(5, "high fire CO2 10.5, CO 40").then((b) => b.at(10, "half a turn counterclockwise"));
const ready = (boiler: Boiler) => boiler.said.filter((text) => text.startsWith("Ready"));

describe("when the settle time is over", () => {
  test("that is said, with the next step, once and not before", async () => {
    const boiler = await turned();
    await boiler.at(69);
    expect(ready(boiler)).toEqual([]);
    await boiler.at(70);
    expect(ready(boiler)).toEqual([expect.stringMatching(/^Ready\. Read C O 2/)]);
    await boiler.at(300);
    expect(ready(boiler)).toHaveLength(1);
  });

  test.each([
    ["a note", "note: trap is dry"],
    ["a check", "panel is on"],
    ["a question", "what's the limit"],
    ["talk", "hand me the key"],
    ["another firing: the advice is to go back", "low fire"],
    ["a reading that came too early", "CO2 10.3"],
  ])("also where something came in between: %s", async (_, phrase) => {
    const boiler = await turned();
    await boiler.at(30, phrase);
    await boiler.at(75);
    expect(ready(boiler)).toHaveLength(1);
  });

  test("the visit is shown as it stands then", async () => {
    const boiler = await turned();
    expect(boiler.session.given.value.reply.judgement.advice.action).toBe("wait");
    await boiler.at(70);
    expect(boiler.session.given.value.reply.judgement.advice).toEqual({ action: "read", firing: "high" });
  });

  test("only “Ready.” while a question is open", async () => {
    const boiler = await turned();
    await boiler.at(30, "CO2 ninety five");
    expect(boiler.session.state.value.questions).toHaveLength(1);
    await boiler.at(70);
    expect(ready(boiler)).toEqual(["Ready."]);
  });

  test("what stops the work is said instead", async () => {
    const boiler = await turned();
    await boiler.at(30, "room CO eighty");
    await boiler.at(70);
    expect(ready(boiler)).toEqual([]);
    expect(boiler.said.at(-1)).toMatch(/^Room C O eighty/);
  });

  test("also while a question is open", async () => {
    const boiler = await turned();
    await boiler.at(30, "room CO eighty");
    await boiler.at(40, "CO2 ninety five");
    await boiler.at(70);
    expect(ready(boiler)).toEqual([]);
    expect(boiler.said.at(-1)).toMatch(/^Room C O eighty/);
  });

  test("in as many words as are wanted", async () => {
    const boiler = await turned();
    await boiler.at(30, "low fire", "say less");
    await boiler.at(70);
    expect(ready(boiler)).toEqual(["Ready. High fire next."]);
  });
});

describe("the end of the wait", () => {
  const until = (boiler: Boiler) => boiler.session.wait.value.until?.slice(14, 19) ?? null;

  test("is the last touch's", async () => {
    const boiler = await turned();
    expect(until(boiler)).toBe("01:10");
    await boiler.at(40, "a quarter turn counterclockwise");
    expect(until(boiler)).toBe("01:40");
    await boiler.at(100);
    expect(ready(boiler)).toHaveLength(1);
  });
  test("“start the clock” starts it anew", async () =>
    expect(until(await (await turned()).at(50, "start the clock"))).toBe("01:50"));
  test("goes with the turn that was struck", async () =>
    expect(until(await (await turned()).at(20, "scratch that"))).toBeNull());
  test("a finished visit waits for nothing", async () =>
    expect(until(await (await turned()).at(20, "finish visit"))).toBeNull());
  test("a turn that is mended keeps it, and what was told is not told again", async () => {
    const boiler = await turned();
    await boiler.at(70);
    await boiler.at(75, "no, the other way");
    expect(boiler.session.state.value.adjustments.map(({ turns }) => turns)).toEqual([0.5]);
    await boiler.at(200);
    expect(ready(boiler)).toHaveLength(1);
  });
  test("a phrase that comes in when it was over and not yet told does not take its place", async () => {
    const boiler = (await turned()).asleep(80);
    await boiler.at(80, "note: trap is dry");
    expect(ready(boiler)).toEqual([]);
    await boiler.at(81);
    expect(ready(boiler)).toHaveLength(1);
  });
});

describe("after a reload", () => {
  test("in the middle of it the wait goes on", async () => {
    const boiler = (await turned()).reload(40);
    expect(boiler.said).toEqual([]);
    await boiler.at(70);
    expect(ready(boiler)).toHaveLength(1);
  });
  test("when it is long over nothing is said", async () => {
    const boiler = (await turned()).reload(71);
    await boiler.at(200);
    expect(boiler.said).toEqual([]);
  });
});

test("a sheet's own time counts, per screw", async () => {
  const boiler = await new Boiler({ settleSeconds: { high: 20, low: 5 } }).at(
    10,
    "high fire",
    "half a turn clockwise",
  );
  await boiler.at(29);
  expect(ready(boiler)).toEqual([]);
  await boiler.at(30);
  expect(ready(boiler)).toHaveLength(1);
});

describe("a clock that is set while it is waited", () => {
  const CHANGED = "The clock of this device was changed. Wait until I say ready.";

  test.each([
    ["forward by an hour", 3600],
    ["back by an hour", -3600],
    ["back by half a minute", -30],
    ["forward by half a minute", 30],
  ])("%s: that is said once, and ready comes when it is, not before and not later", async (_, by) => {
    const boiler = await turned();
    await boiler.at(30);
    boiler.set(by);
    await boiler.at(69);
    expect(boiler.said.slice(-1)).toEqual([CHANGED]);
    expect(boiler.said.filter((text) => text === CHANGED)).toHaveLength(1);
    expect(boiler.session.clockSet.value).toBe(by * 1000);
    expect(boiler.session.left()).toBe(1000);
    await boiler.at(70);
    expect(ready(boiler)).toEqual([expect.stringMatching(/^Ready\. Read C O 2/)]);
    await boiler.at(5000);
    expect(ready(boiler)).toHaveLength(1);
  });

  test("by a few seconds it is put right all the time: nothing is said", async () => {
    const boiler = await turned();
    boiler.set(4);
    await boiler.at(75);
    expect(boiler.said).not.toContain(CHANGED);
    expect(ready(boiler)).toHaveLength(1);
  });

  test("set back, and something is logged: a settle time from there, for the log has nothing else to count by", async () => {
    const boiler = (await turned()).set(-3600);
    await boiler.at(30, "CO2 10.3");
    await boiler.at(89);
    expect(ready(boiler)).toEqual([]);
    await boiler.at(90);
    expect(ready(boiler)).toHaveLength(1);
    expect(boiler.session.state.value.setBacks).toHaveLength(1);
  });

  test("set back before a reload: a settle time from then, at most", async () => {
    const boiler = (await turned()).set(-3600).reload(40);
    expect(boiler.session.left()).toBe(60_000);
    await boiler.at(100);
    expect(ready(boiler)).toHaveLength(1);
  });

  test("when nothing is waited for nothing is said", async () => {
    const boiler = await new Boiler().at(5, "high fire CO2 9.2, CO 40");
    await boiler.set(-3600).at(60);
    expect(boiler.session.clockSet.value).toBeNull();
  });
});

test.each([
  [-3_720_000, "The clock of this device was set back by 1 h 2 min."],
  [-45_000, "The clock of this device was set back by 45 s."],
  [7_200_000, "The clock of this device was set forward by 2 h, or the device slept."],
])("%d ms in words", (by, words) => expect(setInWords(by)).toBe(words));
