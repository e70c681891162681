import { describe, expect, test } from "vitest";
import { backedUpSettings } from "../../../src/app/backup/settings.ts";
import { FIRST_SETTINGS } from "../../../src/app/settings.ts";

describe("what a backup may change of the settings", () => {
  test("is what is said of the work, not what each device is asked for", () => {
    const stored = {
      ...FIRST_SETTINGS,
      units: "si",
      technician: "I. Nvented",
      ear: "platform",
      platformMaySend: true,
      keepClips: false,
      headset: true,
      welcomed: true,
    };
    const taken = backedUpSettings(stored);
    expect(taken).toMatchObject({ units: "si", technician: "I. Nvented" });
    for (const key of ["ear", "platformMaySend", "keepClips", "clipDays", "headset", "welcomed"])
      expect(taken).not.toHaveProperty(key);
  });

  test.each<readonly [string, unknown, object | null]>([
    ["what is not in it stays", { units: "us" }, { units: "us" }],
    ["what this version does not know is passed over", { units: "us", colour: "red" }, { units: "us" }],
    ["nothing", {}, {}],
    ["a unit that there is not", { units: "furlongs" }, null],
    ["a name that is no text", { technician: { toString: 1 } }, null],
    ["no object", "units", null],
    ["null", null, null],
  ])("%s", (_, stored, expected) => {
    expect(backedUpSettings(stored)).toEqual(expected);
  });
});
