import { describe, expect, it } from "vitest";
import { sheet } from "../support/sheets.ts";
import { co, co2, high } from "../support/visits.ts";
import { where } from "./where.ts";

describe("CO over its limit at the top of the CO2 band", () => {
  const at = (value: number, ppm: number) => where([[0, high, co2(value), co(ppm)]], sheet());
  const cases: [string, number, number, RegExp][] = [
    ["in the top 30 %, a little over: leaner", 9.5, 180, /^high-fire: turn high -/],
    ["at the edge of the top: leaner", 9.4, 180, /^high-fire: turn high -/],
    ["below it: stop", 9.3, 180, /^high-fire: stop/],
    ["1.5 times the limit: leaner", 9.5, 262, /^high-fire: turn high -/],
    ["more: stop", 9.5, 263, /^high-fire: stop/],
    ["at the limit: good", 9.5, 175, /^low-fire: go-to low/],
    ["above the band, far over: leaner", 9.9, 300, /^high-fire: turn high -/],
    [
      "air-free above 1000, rich: still leaner, with the burner shut down first",
      9.9,
      900,
      /^high-fire: turn high -/,
    ],
    ["air-free above 1000, not rich: stop", 9.2, 900, /^high-fire: stop.*Shut the burner down/],
  ];
  it.each(cases)("%s", (_name, value, ppm, expected) => expect(at(value, ppm)).toMatch(expected));
});
