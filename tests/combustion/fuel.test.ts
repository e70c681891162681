import { describe, expect, it } from "vitest";
import { FUELS, fuelGas, gasOf } from "../../src/combustion/fuel.ts";
import { WATER_LATENT } from "../../src/combustion/molecule.ts";
import { GASES, near } from "./support.ts";

const R = 8.3144621; // J/(mol K), ISO 6976:2016
const BTU_PER_FT3 = 1055.05585262 / 0.028316846592; // J/m3, IT Btu and international foot

/** MJ/m3 from kJ/mol at a volume temperature in °C, a pressure in kPa and a compression factor (1: ideal gas). */
const perVolume = (kjPerMol: number, celsius: number, z = 1, kPa = 101.325) =>
  (kjPerMol * kPa) / (R * (celsius + 273.15) * z);

describe("ISO 6976:2016 annex D, worked example 1 (15/15 °C)", () => {
  const gas = fuelGas(GASES.annexD1);
  it.each([
    ["molar mass, kg/kmol", gas.molarMass, 17.3884301, 5e-7],
    ["molar gross, kJ/mol", gas.gross[15], 906.1799588, 5e-7],
    ["mass gross, MJ/kg", gas.gross[15] / gas.molarMass, 52.113961, 1e-6],
    ["volume gross, real, Z 0.99776224, MJ/m3", perVolume(gas.gross[15], 15, 0.99776224), 38.410611, 1e-6],
  ])("%s", (_, actual, expected, tolerance) => near(actual, expected, tolerance));
});

describe("ISO 6976:2016 annex D, worked example 3", () => {
  const gas = fuelGas(GASES.annexD3);
  // Z is not published beside it: the ratio of net to gross does not need it.
  it.each([
    ["net/gross 15/15", gas.net[15] / gas.gross[15], 35.86811 / 39.73351],
    ["net/gross 25/0", gas.net[25] / gas.gross[25], 37.85228 / 41.8936],
  ])("%s", (_, actual, expected) => near(actual, expected, 3e-7));
});

describe("EN 437 test gases, real gas at 15/15 °C (from memory; Z from ISO 6976:2016 summation factors)", () => {
  // Z = 1 - s^2 with s(15 °C) of the standard's table A.3; EN 437 rests on the 1995 edition, hence 0.05 %.
  const methaneZ = 1 - 0.04452 ** 2;
  const propaneZ = 1 - 0.1344 ** 2;
  it.each([
    ["G20 net 34.02", perVolume(gasOf("methane").net[15], 15, methaneZ), 34.02],
    ["G20 gross 37.78", perVolume(gasOf("methane").gross[15], 15, methaneZ), 37.78],
    ["G31 net 88.00", perVolume(gasOf("propane").net[15], 15, propaneZ), 88.0],
    ["G31 gross 95.65", perVolume(gasOf("propane").gross[15], 15, propaneZ), 95.65],
  ])("%s MJ/m3", (_, actual, expected) => near(actual, expected, expected * 0.0005));
});

describe("ideal gas, MJ/m3 (independent recalculation from ISO 6976:2016, not published)", () => {
  it.each([
    ["CH4 15/15 gross", perVolume(gasOf("methane").gross[15], 15), 37.704],
    ["CH4 15/15 net", perVolume(gasOf("methane").net[15], 15), 33.946],
    ["CH4 25/0 gross", perVolume(gasOf("methane").gross[25], 0), 39.733],
    ["CH4 25/0 net", perVolume(gasOf("methane").net[25], 0), 35.806],
    ["C2H6 15/15 gross", perVolume(fuelGas(GASES.ethane).gross[15], 15), 66.067],
    ["C2H6 25/0 net", perVolume(fuelGas(GASES.ethane).net[25], 0), 63.739],
    ["C3H8 15/15 gross", perVolume(gasOf("propane").gross[15], 15), 93.936],
    ["C3H8 25/0 net", perVolume(gasOf("propane").net[25], 0), 91.154],
    ["n-C4H10 15/15 gross", perVolume(gasOf("butane").gross[15], 15), 121.792],
    ["n-C4H10 25/0 net", perVolume(gasOf("butane").net[25], 0), 118.557],
    ["G25 15/15 gross", perVolume(fuelGas(GASES.g25).gross[15], 15), 32.426],
    ["G25 25/0 net", perVolume(fuelGas(GASES.g25).net[25], 0), 30.793],
  ])("%s", (_, actual, expected) => near(actual, expected, 0.0006));
});

describe("Btu(IT)/ft3 at 60 °F (15 °C combustion reference stands in for 15.55: 0.006 %)", () => {
  const btu = (kjPerMol: number, kPa: number, z = 1) =>
    (perVolume(kjPerMol, 15.5556, z, kPa) * 1e6) / BTU_PER_FT3;
  const psia = 6.894757293;
  it.each([
    // AGA Report No. 5 worked example as a spreadsheet prints it: 14.73 psia, Z 0.997776.
    ["natural gas gross, AGA 5", btu(gasOf("natural-gas").gross[15], 14.73 * psia, 0.997776), 1034.8, 0.15],
    ["natural gas net, AGA 5", btu(gasOf("natural-gas").net[15], 14.73 * psia, 0.997776), 933.6, 0.15],
    // GPA 2145, ideal gas, 14.696 psia; from memory.
    ["methane gross, GPA 2145", btu(gasOf("methane").gross[15], 14.696 * psia), 1010.0, 0.15],
    ["propane gross, GPA 2145", btu(gasOf("propane").gross[15], 14.696 * psia), 2516.1, 0.5],
    ["butane gross, GPA 2145", btu(gasOf("butane").gross[15], 14.696 * psia), 3262.3, 0.5],
    // 40 CFR 98 table C-1: propane gas 2516, US average natural gas 1026 (ours is 0.9 % richer at its own 14.73 psia).
    ["propane gross, 40 CFR 98", btu(gasOf("propane").gross[15], 14.696 * psia), 2516, 0.5],
    ["natural gas gross, 40 CFR 98", btu(gasOf("natural-gas").gross[15], 14.696 * psia), 1026, 10.26],
  ])("%s", (_, actual, expected, tolerance) => near(actual, expected, tolerance));
});

describe("net over gross", () => {
  it.each([
    // UK SAP factors 0.901 (gas) and 0.921 (LPG); from memory.
    ["methane", gasOf("methane"), 0.901],
    ["propane", gasOf("propane"), 0.921],
  ])("%s", (_, gas, expected) => near(gas.net[25] / gas.gross[25], expected, 0.0005));
});

describe("water", () => {
  it("ISO 6976:2016 L is 2443.1 kJ/kg at 25 °C; the steam table's 2441.7 is of the real vapour", () => {
    near((1000 * WATER_LATENT[25]) / 18.01528, 2443.1, 0.05);
    near((1000 * WATER_LATENT[25]) / 18.01528, 2441.7, 1.5);
  });
});

describe("composition", () => {
  it.each(Object.entries(FUELS))("%s sums to one", (_, rows) => {
    const total = rows.reduce((sum, [, fraction]) => sum + fraction, 0);
    near(total, 1, 1e-9);
  });
  it("refuses fractions that do not sum to one", () => {
    expect(() => fuelGas([["methane", 0.9]])).toThrow("sum to 0.9");
  });
});
