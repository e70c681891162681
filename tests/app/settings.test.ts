import { describe, expect, test } from "vitest";
import { allowsClips, FIRST_SETTINGS, Settings } from "../../src/app/settings.ts";

describe("settings of earlier versions still load", () => {
  const first = { ear: "offline", platformMaySend: false, units: "si" } as const;
  const record = { reviewer: "", officeName: "", technician: "", instrument: null, speaker: null } as const;
  const who = { licence: "", firm: "", keyWords: true } as const;
  const sound = { keepClips: true, clipDays: 30, theme: "auto", welcomed: false, ...record } as const;
  test.each([
    [
      "before the talk could be chosen",
      first,
      { ...first, ...sound, ...who, talk: "normal", headset: false },
    ],
    [
      "before sound was kept",
      { ...first, talk: "short" },
      { ...first, ...sound, ...who, talk: "short", headset: false },
    ],
    [
      "before there was a headset",
      { ...first, ...sound, talk: "full" },
      { ...first, ...sound, ...who, talk: "full", headset: false },
    ],
    [
      "before there was a licence and a firm",
      { ...first, ...sound, talk: "full", headset: true, technician: "A. Quill" },
      { ...first, ...sound, ...who, talk: "full", headset: true, technician: "A. Quill" },
    ],
  ])("%s", (_, stored, expected) => expect(Settings.parse(stored)).toEqual(expected));
});

test.each([
  [null, true],
  [{ name: "Analyser", serial: "A1", calibratedOn: "2026-01-02" }, true],
  [{ name: "Analyser", serial: "A1", calibratedOn: null }, true],
  [{ name: "Analyser", serial: "A1", calibratedOn: "2026-02-30" }, false],
  [{ name: "x".repeat(81), serial: "", calibratedOn: null }, false],
])("an instrument %j: %j", (instrument, good) =>
  expect(Settings.safeParse({ ...FIRST_SETTINGS, instrument }).success).toBe(good),
);

test.each([
  [7, true],
  [30, true],
  [90, true],
  [0, false],
  [8, false],
  [365, false],
  ["30", false],
])("sound kept for %j days: %j", (clipDays, good) =>
  expect(Settings.safeParse({ ...FIRST_SETTINGS, clipDays }).success).toBe(good),
);

describe("whether the stored settings let sound be kept", () => {
  test.each([
    ["nothing was chosen yet", undefined, true],
    ["chosen on", FIRST_SETTINGS, true],
    ["chosen off", { ...FIRST_SETTINGS, keepClips: false }, false],
    ["chosen before there was a choice", { ear: "offline", platformMaySend: false, units: "us" }, true],
    ["unreadable", { ...FIRST_SETTINGS, ear: "left" }, false],
    ["not settings at all", null, false],
  ])("%s", (_, stored, allowed) => expect(allowsClips(stored)).toBe(allowed));
});
