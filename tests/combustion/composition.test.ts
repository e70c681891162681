import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CompositionSchema, fuelGas } from "../../src/combustion/composition.ts";
import { co2FromO2, co2Max, o2FromCo2 } from "../../src/combustion/dilution.ts";
import { flueGas } from "../../src/combustion/flue-gas.ts";
import { FUELS } from "../../src/combustion/fuel.ts";
import { gasInput } from "../../src/combustion/gas-input.ts";
import { gasProperties, METRIC_15_15 } from "../../src/combustion/gas-properties.ts";
import { MOLECULES } from "../../src/combustion/molecule.ts";
import { burn, GASES, near } from "./support.ts";

/** The composition, or every problem as "path: message". */
function read(value: unknown): readonly (readonly [string, number])[] | string[] {
  const result = CompositionSchema.safeParse(value);
  if (result.success) return result.data;
  return result.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`);
}

describe("read", () => {
  it.each<[string, unknown, readonly (readonly [string, number])[]]>([
    ["one molecule", { methane: 1 }, [["methane", 1]]],
    [
      "several",
      { methane: 0.75, ethane: 0.25 },
      [
        ["methane", 0.75],
        ["ethane", 0.25],
      ],
    ],
    ["none of a molecule leaves it out", { methane: 1, nitrogen: 0 }, [["methane", 1]]],
    [
      "a hydrogen blend",
      { methane: 0.5, hydrogen: 0.5 },
      [
        ["methane", 0.5],
        ["hydrogen", 0.5],
      ],
    ],
  ])("%s", (_, value, expected) => expect(read(value)).toEqual(expected));

  it.each([
    [0.995, true],
    [1.005, true],
    [0.9949, false],
    [1.0051, false],
  ])("fractions that sum to %s: %s, and then to one exactly", (sum, accepted) => {
    const rows = read({ methane: 0.5, ethane: sum - 0.5 });
    if (accepted)
      near(
        rows.reduce((total, row) => total + Number(row[1]), 0),
        1,
        1e-12,
      );
    else expect(rows).toEqual([`: expected mole fractions that sum to 1 within 0.005, got ${sum}`]);
  });
});

describe("refused, every problem with its molecule", () => {
  it.each<[string, unknown, readonly RegExp[]]>([
    [
      "percentages",
      { methane: 93, ethane: 7 },
      [/^methane: expected .*0 to 1, got 93$/, /^ethane: .*got 7$/],
    ],
    ["a negative fraction", { methane: 1.1, nitrogen: -0.1 }, [/^methane: .*1\.1$/, /^nitrogen: .*-0\.1$/]],
    ["not a number", { methane: Number.NaN }, [/^methane: expected a mole fraction of 0 to 1, got NaN$/]],
    ["infinite", { methane: Number.POSITIVE_INFINITY }, [/^methane: .*got Infinity$/]],
    ["text", { methane: "much" }, [/^methane: .*got "much"$/]],
    ["a list", { methane: [{ toString: 0 }] }, [/^methane: .*got object$/]],
    ["null", { methane: null }, [/^methane: .*got null$/]],
    ["an unknown molecule", { methane: 0.9, argon: 0.1 }, [/^argon: expected one of methane, ethane/]],
    ["a name of every object", { methane: 0.9, constructor: 0.1 }, [/^constructor: expected one of/]],
    [
      "too little in all",
      { methane: 0.9 },
      [/^: expected mole fractions that sum to 1 within 0.005, got 0\.9$/],
    ],
    ["nothing", {}, [/^: expected mole fractions that sum to 1 within 0.005, got 0$/]],
    ["nothing that burns", { nitrogen: 1 }, [/^: expected a gas that burns/]],
    ["hardly anything that burns", { methane: 0.12, nitrogen: 0.88 }, [/^: expected a gas that burns/]],
    ["no carbon", { hydrogen: 1 }, [/^: expected a gas with carbon/]],
    ["no object", 7, [/^: /]],
  ])("%s", (_, value, problems) => {
    const found = read(value);
    expect(found).toHaveLength(problems.length);
    for (const [index, problem] of problems.entries()) expect(found[index]).toMatch(problem);
  });
  it("one eighth of methane just burns", () =>
    expect(read({ methane: 0.125, nitrogen: 0.875 })).toHaveLength(2));
});

describe("a composition works wherever a named fuel does", () => {
  it("the default natural gas given as a composition is the named one", () => {
    const rest = { o2: 4.5, co: 40, flueTemperature: 55, airTemperature: 20, altitude: 300 };
    expect(burn({ fuel: FUELS["natural-gas"], ...rest })).toEqual(burn({ fuel: "natural-gas", ...rest }));
  });
  it("ISO 6976:2016 annex D example 1 makes 11.99 % CO2 (independent recalculation, not published)", () => {
    near(co2Max(GASES.annexD1), 11.99, 0.005);
    near(o2FromCo2(GASES.annexD1, co2FromO2(GASES.annexD1, 4.5) ?? Number.NaN), 4.5, 1e-12);
  });
  it("a problem names the gas as this gas", () => {
    const result = flueGas({ fuel: GASES.g25, co2: 11.6 });
    expect(result.ok ? [] : result.problems.map(({ message }) => message).join()).toMatch(
      /to the 11\.48 % that this gas can make, got 11\.6 %/,
    );
  });
  it("a gas without carbon has no O2 from CO2", () => {
    expect(o2FromCo2([["hydrogen", 1]], 0)).toBeNull();
    expect(co2FromO2([["hydrogen", 1]], 5)).toBe(0);
  });
  it("fractions that do not sum to one are a programming error", () => {
    expect(() => fuelGas([["methane", 0.9]])).toThrow("sum to 0.9");
    expect(() => fuelGas([["methane", Number.NaN]])).toThrow("expected 1");
  });
});

describe("always", () => {
  const amounts = fc.dictionary(
    fc.constantFrom(...Object.keys(MOLECULES)),
    fc.double({ min: 0, max: 1, noNaN: true }),
    { minKeys: 1 },
  );
  it("what the schema accepts gives finite numbers everywhere", () => {
    fc.assert(
      fc.property(amounts, fc.double({ min: 0, max: 20.4, noNaN: true }), (amount, o2) => {
        const total = Object.values(amount).reduce((sum, value) => sum + value, 0);
        const scaled = Object.fromEntries(Object.entries(amount).map(([id, value]) => [id, value / total]));
        const result = CompositionSchema.safeParse(scaled);
        if (!result.success) return;
        const { data: fuel } = result;
        near(
          fuel.reduce((sum, [, fraction]) => sum + fraction, 0),
          1,
          1e-9,
        );
        const gas = burn({ fuel, o2, co: 10 });
        expect(Object.values(gas).every((value) => value === null || Number.isFinite(value))).toBe(true);
        const properties = gasProperties(fuelGas(fuel), METRIC_15_15);
        expect(properties?.compressionFactor).toBeGreaterThan(0.9);
        expect(properties?.real.net).toBeLessThanOrEqual(properties?.real.gross ?? Number.NaN);
        const input = gasInput({ fuel, seconds: 60, dial: { value: 1, unit: "m3" } });
        expect(input.ok && Object.values(input.gasInput).every((value) => value > 0)).toBe(true);
      }),
    );
  });
  it("whatever is given, the answer is a composition or problems", () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        const result = CompositionSchema.safeParse(value);
        expect(result.success || result.error.issues.length > 0).toBe(true);
      }),
    );
  });
});
