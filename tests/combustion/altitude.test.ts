import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  airDensityRatio,
  codeDeratePercent,
  fixedOrificeInputRatio,
  premixInputRatio,
} from "../../src/combustion/altitude.ts";
import { near } from "./support.ts";

const feet = (value: number) => value * 0.3048;

describe("air density ratio: ISO 2533:1975, table 5, pressure over 1013.25 hPa", () => {
  it.each([
    [0, 1],
    [500, 954.608 / 1013.25],
    [1000, 898.746 / 1013.25],
    [1500, 845.56 / 1013.25],
  ])("%s m", (metres, ratio) => near(airDensityRatio(metres), ratio, 1e-6));
});

describe("input of a premix burner at the same fan speed falls with the density (independent arithmetic, not published)", () => {
  it.each([
    [1000, 11.3],
    [2000, 21.5],
    [3000, 30.8],
  ])("%s m: by %s per cent", (metres, percent) =>
    near(100 * (1 - (premixInputRatio(metres) ?? Number.NaN)), percent, 0.05),
  );
});

describe("input of a fixed orifice falls with the root of the density (Bernoulli: mass goes with the root of density)", () => {
  // The list of check values has the 11.3, 21.5 and 30.8 % above under this name, by the ratio of the pressures. That holds
  // where the air draws the gas; behind a gauge pressure that stays, only the density under the root changes.
  it.each([
    [0, 0],
    [1000, 5.8],
    [2000, 11.4],
    [3000, 16.8],
  ])("%s m: by %s per cent (own arithmetic)", (metres, percent) =>
    near(100 * (1 - (fixedOrificeInputRatio(metres) ?? Number.NaN)), percent, 0.05),
  );
});

describe("derate: NFPA 54 (Uniform Mechanical Code 2009, B.1.2): none to 2000 ft, then 4 % for every 1000 ft above sea level", () => {
  it.each([
    [0, 0],
    [1999, 0],
    [2000, 0],
    [2001, 8.004],
    [3281, 13.124],
    [5000, 20],
    [6562, 26.248],
    [9843, 39.372],
  ])("%s ft: %s per cent", (altitude, percent) => near(codeDeratePercent(feet(altitude)), percent, 1e-4));
  it("in metres: 600 m none, 1000 m 13.1, 2000 m 26.2, 3000 m 39.4 per cent", () => {
    expect(codeDeratePercent(600)).toBe(0);
    near(codeDeratePercent(1000), 13.1, 0.05);
    near(codeDeratePercent(2000), 26.2, 0.05);
    near(codeDeratePercent(3000), 39.4, 0.05);
  });
  it("is steeper than what physics takes off, wherever it applies", () => {
    fc.assert(
      fc.property(fc.double({ min: 610, max: 6000, noNaN: true }), (metres) => {
        const kept = 1 - (codeDeratePercent(metres) ?? Number.NaN) / 100;
        const premix = premixInputRatio(metres) ?? Number.NaN;
        const orifice = fixedOrificeInputRatio(metres) ?? Number.NaN;
        expect(kept).toBeLessThan(premix);
        expect(premix).toBeLessThan(orifice);
      }),
    );
  });
});

describe("range: -500 to 6000 m", () => {
  it.each([
    [-501, false],
    [-500, true],
    [6000, true],
    [6001, false],
    [Number.NaN, false],
    [Number.POSITIVE_INFINITY, false],
  ])("%s m: %s", (metres, valid) => {
    for (const of of [airDensityRatio, premixInputRatio, fixedOrificeInputRatio, codeDeratePercent])
      expect(of(metres) !== null).toBe(valid);
  });
});
