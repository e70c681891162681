import { describe, expect, test } from "vitest";
import { FIRST_SETTINGS, Settings } from "../../src/app/settings.ts";
import { Boiler } from "./boiler.ts";

const STORED = { ear: "platform", platformMaySend: true, units: "si" };
const READING = "high fire CO2 9.2, CO 40";

describe("the level in the settings", () => {
  test("settings stored before there was one are kept, at the normal level", () =>
    expect(Settings.parse(STORED)).toMatchObject({ ...STORED, talk: "normal" }));
  test.each(["short", "normal", "full"])("%s", (talk) =>
    expect(Settings.parse({ ...STORED, talk }).talk).toBe(talk),
  );
  test("no other", () => expect(Settings.safeParse({ ...STORED, talk: "loud" }).success).toBe(false));
  test("what is chosen first is whole", () => expect(Settings.parse(FIRST_SETTINGS)).toEqual(FIRST_SETTINGS));
});

describe("the level is that of the answer", () => {
  test.each([
    ["short", "Nine point two, forty, good. Low fire next."],
    ["normal", "C O 2 nine point two, C O forty, good. Low fire next."],
  ] as const)("%s", async (talk, answer) => {
    const boiler = new Boiler();
    boiler.talk = talk;
    await boiler.at(10, READING);
    expect(boiler.said.at(-1)).toBe(answer);
    // Where the visit stands is told the same way after a reload.
    expect(boiler.reload(20).session.given.value.reply.answer).toBe(answer);
  });
  test("full: with limits and the reason", async () => {
    const boiler = new Boiler();
    boiler.talk = "full";
    await boiler.at(10, READING);
    expect(boiler.said.at(-1)).toMatch(/eight point seven to nine point seven.*high fire is in limits\.$/);
  });
});

test("“say less” counts for the very next phrase, however fast it comes", async () => {
  const boiler = new Boiler();
  const { session } = boiler;
  await Promise.all(
    ["say less", READING].map((text) => session.hear({ text, engine: "typed", confidence: 1, sound: null })),
  );
  expect(boiler.said).toEqual(["Short answers.", "Nine point two, forty, good. Low fire next."]);
  await boiler.at(20, "say more", "say more", "say more");
  expect(boiler.talk).toBe("full");
});
