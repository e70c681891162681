import { describe, expect, it } from "vitest";
import { fuelGas } from "../../src/combustion/composition.ts";
import { FUEL_IDS, FUELS, gasOf } from "../../src/combustion/fuel.ts";
import { MOLECULES, WATER_LATENT } from "../../src/combustion/molecule.ts";
import { near } from "./support.ts";

describe("net over gross", () => {
  it.each([
    // UK SAP factors 0.901 (gas) and 0.921 (LPG); from memory.
    ["methane", gasOf("methane"), 0.901, 0.0005],
    ["propane", gasOf("propane"), 0.921, 0.0005],
    // Independent recalculation, not published.
    ["methane", gasOf("methane"), 0.9012, 0.0005],
    ["propane", gasOf("propane"), 0.9207, 0.0001],
  ])("%s", (_, gas, expected, tolerance) => near(gas.net[25] / gas.gross[25], expected, tolerance));
});

describe("ISO 6976:1995, gross heating value of methane, kJ/mol (from memory): 0.05 above the 2016 edition", () => {
  it.each([
    [0, 892.97],
    [15, 891.56],
    [20, 891.09],
    [25, 890.63],
  ] as const)("%s °C", (celsius, old) => near(gasOf("methane").gross[celsius], old, 0.055));
});

describe("ISO 6976:2016, tables A.2, A.3, A.4, as typed in (read in the data of an open package)", () => {
  // Molar mass; summation factor at 0 and 15 °C; gross heating value, kJ/mol, at 0, 15, 15.55, 20, 25 °C.
  const INERT = [0, 0, 0, 0, 0];
  it.each<[keyof typeof MOLECULES, number, readonly number[], readonly number[]]>([
    ["methane", 16.04246, [0.04886, 0.04452], [892.92, 891.51, 891.46, 891.05, 890.58]],
    ["ethane", 30.06904, [0.0997, 0.0919], [1564.35, 1562.14, 1562.06, 1561.42, 1560.69]],
    ["propane", 44.09562, [0.1465, 0.1344], [2224.03, 2221.1, 2220.99, 2220.13, 2219.17]],
    ["n-butane", 58.1222, [0.2022, 0.184], [2883.35, 2879.76, 2879.63, 2878.58, 2877.4]],
    ["isobutane", 58.1222, [0.1885, 0.1722], [2874.21, 2870.58, 2870.45, 2869.39, 2868.2]],
    ["hydrogen", 2.01588, [-0.01, -0.01], [286.64, 286.15, 286.13, 285.99, 285.83]],
    ["carbon-monoxide", 28.0101, [0.0258, 0.0217], [282.8, 282.91, 282.91, 282.95, 282.98]],
    ["nitrogen", 28.0134, [0.0214, 0.017], INERT],
    ["carbon-dioxide", 44.0095, [0.0821, 0.0752], INERT],
  ])("%s", (id, molarMass, s, heats) => {
    const { summation, gross, ...rest } = MOLECULES[id];
    expect(rest.molarMass).toBe(molarMass);
    expect([summation[0], summation[15]]).toEqual(s);
    expect([gross[0], gross[15], gross[15.55], gross[20], gross[25]]).toEqual(heats);
  });
  it("enthalpy of vaporisation of water", () =>
    expect(WATER_LATENT).toEqual({ 0: 45.064, 15: 44.431, 15.55: 44.408, 20: 44.222, 25: 44.013 }));
});

describe("tables A.3 and A.4 of ISO 6976:2016 as typed in: no figure out of line (a guard against slips, no outside check)", () => {
  it.each(Object.entries(MOLECULES))("%s", (id, { summation, gross, c, h, o, n, molarMass }) => {
    // Gases come closer to ideal with temperature; hydrogen's factor is one for all. Only burning CO gives more when hot.
    const s = [summation[0], summation[15], summation[15.55], summation[20]];
    const heats = [gross[0], gross[15], gross[15.55], gross[20], gross[25]];
    const sign = id === "carbon-monoxide" ? -1 : 1;
    for (const [index, value] of s.slice(1).entries()) expect(value).toBeLessThanOrEqual(s[index] ?? 0);
    for (const [index, value] of heats.slice(1).entries())
      expect(sign * value).toBeLessThanOrEqual(sign * (heats[index] ?? 0));
    near(heats[4] ?? 0, heats[0] ?? 0, (heats[0] ?? 0) * 0.004);
    near(molarMass, 12.0107 * c + 1.00794 * h + 15.9994 * o + 14.0067 * n, 1e-3);
  });
});

describe("enthalpy of vaporisation of water", () => {
  it("at 25 °C ISO 6976:2016 has 2443.1 kJ/kg, of the ideal vapour; a steam table (Ohio) has 2441.7, of the real one", () => {
    near((1000 * WATER_LATENT[25]) / 18.01528, 2443.1, 0.05);
    near((1000 * WATER_LATENT[25]) / 18.01528, 2441.7, 1.5);
  });
  it("at 20 °C the steam table has 2453.5: as far beside, 0.05 %", () =>
    near((1000 * WATER_LATENT[20]) / 18.01528, 2453.5, 1.5));
  it("at 25 °C CODATA has 44.004 kJ/mol (from memory): 0.02 % below", () =>
    near(WATER_LATENT[25], 44.004, 0.01));
});

describe("the named fuels", () => {
  it.each(FUEL_IDS)("%s sums to one, and its gas is that of its composition", (id) => {
    const total = FUELS[id].reduce((sum, [, fraction]) => sum + fraction, 0);
    near(total, 1, 1e-9);
    near(gasOf(id).gross[15], gasOf(FUELS[id]).gross[15], 0);
    near(gasOf(id).gross[15], fuelGas(FUELS[id]).gross[15], 0);
  });
});
