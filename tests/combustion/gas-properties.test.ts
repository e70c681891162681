import { describe, expect, it } from "vitest";
import { type Composition, fuelGas } from "../../src/combustion/composition.ts";
import { FUELS } from "../../src/combustion/fuel.ts";
import {
  compressionFactor,
  type GasProperties,
  gasProperties,
  METRIC_15_15,
  type ReferenceConditions,
} from "../../src/combustion/gas-properties.ts";
import { factor } from "../../src/measure/scale.ts";
import { GASES, near } from "./support.ts";

/** Reference conditions of western and central Europe's billing, and 60 °F of the US. */
const METRIC_25_0: ReferenceConditions = { combustion: 25, volume: 0 };
const US_60_F: ReferenceConditions = { combustion: 15.55, volume: 15.55 };
const BTU_PER_FT3 = factor("MJ/m3", "[Btu_IT]/[cft_i]");
const PSI = factor("[psi]", "Pa");

/** Properties that must exist. */
function of(composition: Composition, conditions: ReferenceConditions): GasProperties {
  const properties = gasProperties(fuelGas(composition), conditions);
  if (properties === null) throw new Error("expected properties");
  return properties;
}

describe("ISO 6976:2016 annex D, worked example 1, 15/15 °C (read in the tests of an open package that quotes it)", () => {
  const gas = fuelGas(GASES.annexD1);
  const { compressionFactor: z, real } = of(GASES.annexD1, METRIC_15_15);
  it.each([
    ["molar mass, kg/kmol", gas.molarMass, 17.3884301, 5e-8],
    ["Z", z, 0.99776224, 5e-9],
    ["molar gross, kJ/mol", gas.gross[15], 906.1799588, 5e-8],
    ["mass gross, MJ/kg", gas.gross[15] / gas.molarMass, 52.113961, 5e-7],
    ["volume gross, real, MJ/m3", real.gross, 38.410611, 5e-7],
    // Independent recalculation, not published.
    ["volume net, real, MJ/m3", real.net, 34.635, 5e-4],
    ["Wobbe gross", real.wobbeGross, 49.529, 5e-4],
    ["Wobbe net", real.wobbeNet, 44.661, 5e-4],
  ])("%s", (_, actual, expected, tolerance) => near(actual, expected, tolerance));
});

describe("ISO 6976:2016 annex D, worked example 3, real gas (same source)", () => {
  const at15 = of(GASES.annexD3, METRIC_15_15).real;
  const at0 = of(GASES.annexD3, METRIC_25_0).real;
  it.each([
    ["15/15 gross", at15.gross, 39.73351],
    ["15/15 net", at15.net, 35.86811],
    ["15/15 density", at15.density, 0.76462],
    ["15/15 relative density", at15.relativeDensity, 0.62391],
    ["15/15 Wobbe gross", at15.wobbeGross, 50.30318],
    ["15/15 Wobbe net", at15.wobbeNet, 45.40954],
    ["25/0 gross", at0.gross, 41.8936],
    ["25/0 net", at0.net, 37.85228],
    ["25/0 density", at0.density, 0.80701],
    ["25/0 relative density", at0.relativeDensity, 0.62411],
    ["25/0 Wobbe gross", at0.wobbeGross, 53.0293],
    ["25/0 Wobbe net", at0.wobbeNet, 47.91376],
  ])("%s", (_, actual, expected) => near(actual, expected, 5.1e-6));
});

describe("AGA Report No. 5 worked example, 60 °F and 14.73 psia, as a spreadsheet of it prints it", () => {
  // Another standard with its own data: its Z differs by 2 in the sixth decimal, all else agrees to its last digit.
  const { compressionFactor: z, real } = of(FUELS["natural-gas"], { ...US_60_F, pressure: 14.73 * PSI });
  it.each([
    ["Z", z, 0.997776, 2.5e-6],
    ["gross, Btu/ft3", real.gross * BTU_PER_FT3, 1034.8, 0.05],
    ["net, Btu/ft3", real.net * BTU_PER_FT3, 933.6, 0.05],
    ["Wobbe, Btu/ft3", real.wobbeGross * BTU_PER_FT3, 1326.5, 0.05],
    ["relative density", real.relativeDensity, 0.6086, 5e-5],
    // Independent recalculation with the data of ISO 6976:2016, not published.
    ["Z by ISO 6976", z, 0.997774, 5e-7],
    ["gross by ISO 6976", real.gross * BTU_PER_FT3, 1034.82, 0.005],
    ["net by ISO 6976", real.net * BTU_PER_FT3, 933.6, 0.005],
    ["Wobbe by ISO 6976", real.wobbeGross * BTU_PER_FT3, 1326.52, 0.005],
    ["relative density by ISO 6976", real.relativeDensity, 0.60856, 5e-6],
  ])("%s", (_, actual, expected, tolerance) => near(actual, expected, tolerance));
});

describe("dry air in ISO 6976:2016, as the relative density has it (read in the data of an open package)", () => {
  const methane = fuelGas(FUELS.methane);
  it.each([
    [0, 0.999419],
    [15, 0.999595],
    [15.55, 0.999601],
    [20, 0.999645],
  ] as const)("%s °C: Z %s, 28.96546 kg/kmol", (volume, airZ) => {
    const { compressionFactor: z, ideal, real } = of(FUELS.methane, { combustion: 15, volume });
    near((real.relativeDensity / ideal.relativeDensity) * z, airZ, 5e-10);
    near(methane.molarMass / ideal.relativeDensity, 28.96546, 5e-9);
  });
});

const METHANE = FUELS.methane;
const PROPANE = FUELS.propane;
const BUTANE = FUELS.butane;

describe("EN 437 test gases, real gas at 15/15 °C: net Wobbe, gross Wobbe, net, gross, relative density (from memory)", () => {
  // EN 437 rests on ISO 6976:1995, whose data differ by 0.05 %; its butanes (G30) by up to 0.2 %. Not tuned.
  it.each<[string, Composition, number, number, number, number, number, number]>([
    ["G20", METHANE, 45.67, 50.72, 34.02, 37.78, 0.555, 0.0005],
    ["G25", GASES.g25, 37.38, 41.52, 29.25, 32.49, 0.612, 0.0005],
    ["G31", PROPANE, 70.69, 76.84, 88.0, 95.65, 1.55, 0.0005],
    ["G30", GASES.g30, 80.58, 87.33, 116.09, 125.81, 2.075, 0.002],
  ])("%s", (_, gas, wobbeNet, wobbeGross, net, gross, relativeDensity, relative) => {
    const { real } = of(gas, METRIC_15_15);
    near(real.wobbeNet, wobbeNet, wobbeNet * relative);
    near(real.wobbeGross, wobbeGross, wobbeGross * relative);
    near(real.net, net, net * relative);
    near(real.gross, gross, gross * relative);
    near(real.relativeDensity, relativeDensity, Math.max(0.0006, relativeDensity * relative));
  });
});

describe("MJ/m3, ideal and real: gross and net at 15/15, gross and net at 25/0 (independent recalculation, not published)", () => {
  it.each<[string, Composition, readonly number[], readonly number[]]>([
    ["CH4", METHANE, [37.704, 33.946, 39.733, 35.806], [37.779, 34.013, 39.828, 35.892]],
    ["C2H6", GASES.ethane, [66.067, 60.43, 69.63, 63.739], [66.63, 60.944, 70.329, 64.379]],
    ["C3H8", PROPANE, [93.936, 86.42, 99.008, 91.154], [95.664, 88.009, 101.18, 93.153]],
    ["n-C4H10", BUTANE, [121.792, 112.397, 128.375, 118.557], [126.06, 116.336, 133.848, 123.611]],
    ["G30", GASES.g30, [121.598, 112.203, 128.17, 118.352], [125.582, 115.878, 133.255, 123.048]],
    ["G25", GASES.g25, [32.426, 29.194, 34.171, 30.793], [32.479, 29.242, 34.24, 30.856]],
  ])("%s", (_, composition, ideal, real) => {
    const at15 = of(composition, METRIC_15_15);
    const at0 = of(composition, METRIC_25_0);
    const all = (which: "ideal" | "real") => [
      at15[which].gross,
      at15[which].net,
      at0[which].gross,
      at0[which].net,
    ];
    for (const [index, value] of all("ideal").entries()) near(value, ideal[index] ?? Number.NaN, 0.0006);
    for (const [index, value] of all("real").entries()) near(value, real[index] ?? Number.NaN, 0.0006);
  });
});

describe("gross Wobbe, net Wobbe, relative density, real at 15/15 (independent recalculation, not published)", () => {
  it.each<[string, Composition, number, number, number]>([
    ["CH4", METHANE, 50.724, 45.668, 0.5547],
    ["C2H6", GASES.ethane, 65.132, 59.574, 1.0465],
    ["C3H8", PROPANE, 76.846, 70.697, 1.5497],
    ["n-C4H10", BUTANE, 87.49, 80.74, 2.0761],
    ["G30", GASES.g30, 87.254, 80.512, 2.0715],
    ["G25", GASES.g25, 41.502, 37.365, 0.6125],
  ])("%s", (_, composition, gross, net, relativeDensity) => {
    const { real } = of(composition, METRIC_15_15);
    near(real.wobbeGross, gross, 0.0006);
    near(real.wobbeNet, net, 0.0006);
    near(real.relativeDensity, relativeDensity, 0.00006);
  });
});

describe("Btu(IT)/ft3 at 60 °F and 14.696 psia", () => {
  const of60 = (composition: Composition) => of(composition, US_60_F);
  it.each([
    // GPA 2145, ideal gas; from memory, with its own data.
    ["methane gross, GPA 2145", of60(METHANE).ideal.gross, 1010.0, 0.1],
    ["ethane gross, GPA 2145", of60(GASES.ethane).ideal.gross, 1769.7, 0.1],
    ["propane gross, GPA 2145", of60(PROPANE).ideal.gross, 2516.1, 0.2],
    ["butane gross, GPA 2145", of60(BUTANE).ideal.gross, 3262.3, 0.2],
    // 40 CFR 98, table C-1: propane 2516, US average natural gas 1026. Ours, of AGA 5, is 0.6 % richer: another gas.
    ["propane gross, 40 CFR 98", of60(PROPANE).ideal.gross, 2516, 0.5],
    ["natural gas gross, 40 CFR 98", of60(FUELS["natural-gas"]).real.gross, 1026, 10.26],
    // Commercial propane of NFPA 58 (2488, from memory) is a mixture that is none of the fuels here: no row.
    // CAN/CGA-B149.2-M95: 2520 Btu/ft3, a figure between the ideal and the real gas (0.2 and 1.7 % away). Not one true number.
    ["propane gross, ideal, CAN/CGA-B149.2-M95", of60(PROPANE).ideal.gross, 2520, 2520 * 0.002],
    // Combustion constants of 1962: older data and its own rounding; its heavier gases are real gases. Within 0.5 and 1.5 %.
    ["methane gross, 1962 table", of60(METHANE).real.gross, 1013.2, 1013.2 * 0.005],
    ["methane net, 1962 table", of60(METHANE).real.net, 913.1, 913.1 * 0.005],
    ["propane gross, 1962 table", of60(PROPANE).real.gross, 2590, 2590 * 0.015],
    ["propane net, 1962 table", of60(PROPANE).real.net, 2385, 2385 * 0.015],
    ["butane gross, 1962 table", of60(BUTANE).real.gross, 3370, 3370 * 0.005],
    ["butane net, 1962 table", of60(BUTANE).real.net, 3113, 3113 * 0.005],
    // Independent recalculation, not published.
    ["methane gross, ideal", of60(METHANE).ideal.gross, 1009.95, 0.03],
    ["methane net, ideal", of60(METHANE).ideal.net, 909.34, 0.03],
    ["methane gross, real", of60(METHANE).real.gross, 1011.96, 0.03],
    ["propane gross, ideal", of60(PROPANE).ideal.gross, 2516.2, 0.1],
    ["propane gross, real", of60(PROPANE).real.gross, 2562, 0.5],
    ["butane gross, ideal", of60(BUTANE).ideal.gross, 3262.4, 0.1],
    ["butane gross, real", of60(BUTANE).real.gross, 3376, 0.6],
  ])("%s", (_, actual, expected, tolerance) => near(actual * BTU_PER_FT3, expected, tolerance));
});

describe("US average natural gas, EIA: 1036 to 1038 Btu/ft3 (from memory)", () => {
  it("the default composition lies within 0.5 %", () => {
    const { real } = of(FUELS["natural-gas"], { ...US_60_F, pressure: 14.73 * PSI });
    near(real.gross * BTU_PER_FT3, 1037, 1037 * 0.005);
  });
});

describe("CAN/CGA-B149.2-M95: propane 93.8 MJ/m3 (the pure ideal gas at 15 °C is 0.15 % above)", () => {
  it("15/15 gross", () => near(of(PROPANE, METRIC_15_15).ideal.gross, 93.8, 93.8 * 0.002));
});

describe("pressure range of the compression factor: 90 to 110 kPa", () => {
  const gas = fuelGas(METHANE);
  it.each([
    [89_999, false],
    [90_000, true],
    [110_000, true],
    [110_001, false],
    [Number.NaN, false],
  ])("%s Pa: %s", (pressure, valid) =>
    expect(gasProperties(gas, { ...METRIC_15_15, pressure }) !== null).toBe(valid),
  );
  it("no pressure, no interaction: an ideal gas", () => expect(compressionFactor(gas, 15, 0)).toBe(1));
});
