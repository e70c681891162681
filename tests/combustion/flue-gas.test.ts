import { describe, expect, it } from "vitest";
import { type FlueGasInput, flueGas } from "../../src/combustion/flue-gas.ts";
import { burn, near } from "./support.ts";

const NG = "natural-gas";

describe("what is not known is null, not zero", () => {
  it.each<[string, FlueGasInput, readonly string[]]>([
    [
      "O2 alone",
      { fuel: NG, o2: 5 },
      [
        "coAirFree",
        "coCo2Ratio",
        "lossDryPercent",
        "lossLatentPercent",
        "efficiencyNetPercent",
        "efficiencyGrossPercent",
      ],
    ],
    [
      "flue temperature without the air's",
      { fuel: NG, o2: 5, co: 40, flueTemperature: 60 },
      ["lossDryPercent", "lossLatentPercent", "efficiencyNetPercent", "efficiencyGrossPercent"],
    ],
    ["all given", { fuel: NG, co2: 9.2, co: 0, flueTemperature: 60, airTemperature: 20, altitude: 300 }, []],
    [
      "so diluted at such a height that water would freeze out",
      { fuel: NG, o2: 20.4, co: 1, flueTemperature: 20, airTemperature: 20, altitude: 6000 },
      ["dewPoint"],
    ],
  ])("%s", (_, input, missing) => {
    const nulls = Object.entries(burn(input)).flatMap(([name, value]) => (value === null ? [name] : []));
    expect(nulls).toEqual(missing);
  });
});

describe("the same flue gas from O2 and from CO2", () => {
  it.each([0, 2, 4.5, 9, 15])("O2 %s", (o2) => {
    const rest = { fuel: NG, co: 50, flueTemperature: 45, airTemperature: 18, altitude: 800 } as const;
    const fromO2 = burn({ ...rest, o2 });
    const fromCo2 = burn({ ...rest, co2: fromO2.co2 });
    for (const [name, value] of Object.entries(fromO2)) {
      near(Object.entries(fromCo2).find(([other]) => other === name)?.[1] ?? null, value, 1e-9 * (1 + value));
    }
  });
});

describe("volumes at the actual air ratio", () => {
  // Balance: the dry flue gas is the air plus the shrinkage of burning, which for methane takes 1 + 2 to 1 + 2 water.
  it.each([0, 5, 10])("methane O2 %s: wet flue is air and gas together", (o2) => {
    const gas = burn({ fuel: "methane", o2 });
    near(gas.wetFlueVolume, gas.airToFuelVolume + 1, 1e-9);
    near(gas.wetFlueVolume - gas.dryFlueVolume, 2, 1e-9);
    near((100 * 0.2095 * (gas.lambda - 1) * 2) / 0.2095 / gas.dryFlueVolume, o2, 1e-9);
  });
});

describe("impossible input gives every problem with its field, never NaN", () => {
  it.each<[string, FlueGasInput, readonly string[]]>([
    ["O2 below 0", { fuel: NG, o2: -0.1 }, ["o2"]],
    ["O2 nearly air", { fuel: NG, o2: 20.5 }, ["o2"]],
    ["O2 singular", { fuel: NG, o2: 20.95 }, ["o2"]],
    ["O2 above air", { fuel: NG, o2: 30 }, ["o2"]],
    ["O2 not a number", { fuel: NG, o2: Number.NaN }, ["o2"]],
    ["O2 infinite", { fuel: NG, o2: Number.POSITIVE_INFINITY }, ["o2"]],
    ["CO2 none", { fuel: NG, co2: 0 }, ["co2"]],
    ["CO2 negative", { fuel: NG, co2: -1 }, ["co2"]],
    ["CO2 of nearly air", { fuel: NG, co2: 0.2 }, ["co2"]],
    ["CO2 above CO2max", { fuel: NG, co2: 11.91 }, ["co2"]],
    ["CO2 possible on propane only", { fuel: NG, co2: 13 }, ["co2"]],
    ["CO2 not a number", { fuel: NG, co2: Number.NaN }, ["co2"]],
    ["CO negative", { fuel: NG, o2: 5, co: -1 }, ["co"]],
    ["CO above 2 %", { fuel: NG, o2: 5, co: 20_001 }, ["co"]],
    [
      "flue below freezing",
      { fuel: NG, o2: 5, flueTemperature: -1, airTemperature: -5 },
      ["flueTemperature"],
    ],
    ["flue too hot", { fuel: NG, o2: 5, flueTemperature: 601 }, ["flueTemperature"]],
    ["flue below the air", { fuel: NG, o2: 5, flueTemperature: 19, airTemperature: 20 }, ["flueTemperature"]],
    ["air too cold", { fuel: NG, o2: 5, airTemperature: -41 }, ["airTemperature"]],
    ["air too hot", { fuel: NG, o2: 5, airTemperature: 151 }, ["airTemperature"]],
    ["altitude too low", { fuel: NG, o2: 5, altitude: -501 }, ["altitude"]],
    ["altitude too high", { fuel: NG, o2: 5, altitude: 6001 }, ["altitude"]],
    [
      "hotter than so much air lets the flame be",
      { fuel: NG, o2: 19, flueTemperature: 600, airTemperature: 0 },
      ["flueTemperature"],
    ],
    ["a gas of which half is missing", { fuel: [["methane", 0.5]], o2: 5 }, ["fuel"]],
    ["the same, by its CO2", { fuel: [["methane", 0.5]], co2: 9 }, ["fuel"]],
    ["no gas at all, and no O2", { fuel: [], o2: Number.NaN }, ["fuel", "o2"]],
    [
      "shares that are none",
      {
        fuel: [
          ["methane", 2],
          ["ethane", -1],
        ],
        o2: 5,
      },
      ["fuel", "fuel"],
    ],
    ["a share that is not a number", { fuel: [["methane", Number.NaN]], o2: 5 }, ["fuel"]],
    ["a gas that does not burn", { fuel: [["nitrogen", 1]], o2: 5 }, ["fuel"]],
    [
      "all at once",
      { fuel: NG, o2: 21, co: -1, flueTemperature: 700, airTemperature: 200, altitude: 9000 },
      ["o2", "co", "flueTemperature", "airTemperature", "altitude"],
    ],
  ])("%s", (_, input, paths) => {
    const result = flueGas(input);
    expect(result.ok ? [] : result.problems.map((problem) => problem.path)).toEqual(paths);
    expect(result.ok ? [] : result.problems.map((problem) => problem.message).join(" ")).toMatch(
      /^expected .*got/,
    );
  });

  it.each<[string, FlueGasInput]>([
    ["O2 0", { fuel: NG, o2: 0 }],
    ["a gas of one's own, its shares rounded in the sixth place", { fuel: [["methane", 0.999995]], o2: 5 }],
    ["O2 just below nearly air", { fuel: NG, o2: 20.49 }],
    ["CO2 just above nearly air", { fuel: NG, co2: 0.27 }],
    ["CO2 at CO2max", { fuel: NG, co2: 11.89 }],
    ["CO none", { fuel: NG, o2: 5, co: 0 }],
    ["CO at its bound", { fuel: NG, o2: 5, co: 20_000 }],
    ["flue as cold as the air", { fuel: NG, o2: 5, flueTemperature: 20, airTemperature: 20 }],
    ["flue at its bounds", { fuel: NG, o2: 0, flueTemperature: 600, airTemperature: -40 }],
    ["altitude at its lower bound", { fuel: NG, o2: 5, altitude: -500 }],
    ["altitude at its upper bound", { fuel: NG, o2: 5, altitude: 6000 }],
  ])("%s is possible", (_, input) => expect(flueGas(input).ok).toBe(true));

  it("says what was expected and what came", () => {
    expect(flueGas({ fuel: "propane", co2: 14 })).toEqual({
      ok: false,
      problems: [
        {
          path: "co2",
          message:
            "expected above 0.29 % (less is nearly fresh air) to the 13.72 % that propane can make, got 14 %",
        },
      ],
    });
  });
});
