import { describe, expect, test } from "vitest";
import type { Earcon } from "../../src/answer/earcon.ts";
import { createEarcons, lengthOf, tonesOf } from "../../src/device/earcons.ts";

const KINDS = ["heard", "asking", "warning"] as const satisfies readonly Earcon[];
const contour = (kind: Earcon) =>
  tonesOf(kind).map(({ from, to }) => (to > 1.2 * from ? "up" : to < 0.8 * from ? "down" : "level"));

describe("the tones tell each other apart without a pitch", () => {
  test.each<[Earcon, string[]]>([
    ["none", []],
    ["heard", ["up"]],
    ["asking", ["up", "up"]],
    ["warning", ["level", "level", "level"]],
  ])("%s", (kind, expected) => expect(contour(kind)).toEqual(expected));

  test("the warning alone is harsh, and low", () => {
    for (const kind of KINDS) {
      for (const { shape, from } of tonesOf(kind)) {
        expect([shape === "square", from < 300]).toEqual([kind === "warning", kind === "warning"]);
      }
    }
  });

  test.each(KINDS)(
    "%s: tones never overlap, and all take less than the half second that an answer waits",
    (kind) => {
      const tones = tonesOf(kind);
      for (const [i, { start, seconds }] of tones.entries()) {
        expect(start + seconds).toBeLessThan(tones[i + 1]?.start ?? 0.5);
      }
      expect(lengthOf(kind)).toBeGreaterThanOrEqual(0.1);
    },
  );
});

describe("where the page may make no sound", () => {
  test.each(KINDS)("%s is over at once", async (kind) =>
    expect(await createEarcons({ running: async () => null })(kind)).toBeUndefined(),
  );
  test("none does not even ask", async () => {
    const running = () => Promise.reject(new Error("asked"));
    await expect(createEarcons({ running })("none")).resolves.toBeUndefined();
  });
});
