import { describe, expect, it } from "vitest";
import { combustion } from "../../src/cli/combustion.ts";
import { cli } from "../support/cli.ts";

/** Runs the verb inside the test: the same code without the wait for a process. */
async function verb(line: string): Promise<{ status: number; out: unknown[]; err: string[] }> {
  const out: unknown[] = [];
  const err: string[] = [];
  const lines = (async function* () {})();
  const io = {
    lines,
    json: (value: unknown) => void out.push(value),
    say: (text: string) => void err.push(text),
  };
  const status = await combustion.run(line.split(" ").filter(Boolean), io);
  return { status, out, err };
}

const KEYS = [
  "co2Max",
  "co2",
  "o2",
  "lambda",
  "excessAirPercent",
  "coAirFree",
  "coCo2Ratio",
  "dewPoint",
  "lossDryPercent",
  "lossLatentPercent",
  "efficiencyNetPercent",
  "efficiencyGrossPercent",
  "airToFuelVolume",
  "dryFlueVolume",
  "wetFlueVolume",
];

describe("combustion as a process", { timeout: 60_000 }, () => {
  it("prints one JSON line with the contract's names, in order, and nothing on standard error", async () => {
    const ran = await cli(
      "combustion --fuel natural-gas --o2 4.5 --co 40 --flue 52 --air -5 --altitude -20".split(" "),
    );
    expect(ran).toMatchObject({ status: 0, err: "" });
    expect(ran.out.split("\n")).toHaveLength(2);
    const gas: { readonly o2: number; readonly coAirFree: number } = JSON.parse(ran.out);
    expect(Object.keys(gas)).toEqual(KEYS);
    expect(Object.values(gas).every((value) => Number.isFinite(value))).toBe(true);
    expect(gas.o2).toBe(4.5);
    // CO x 20.9/(20.9 - O2): trade articles on ANSI Z21 air-free CO.
    expect(gas.coAirFree).toBeCloseTo((40 * 20.9) / 16.4, 9);
  });
  it("gives the excess air of US DOE Steam Tip Sheet 4: O2 5 % is 28.1 %", async () => {
    const ran = await cli(["combustion", "--fuel", "methane", "--o2=5"]);
    expect(JSON.parse(ran.out).excessAirPercent).toBeCloseTo(28.1, 1);
  });
  it("refuses impossible numbers with status 1, one sentence each, nothing on standard output", async () => {
    const ran = await cli(["combustion", "--fuel", "propane", "--o2", "21", "--co", "-3"]);
    expect(ran).toEqual({
      status: 1,
      out: "",
      rows: [],
      err:
        "combustion: --o2: expected 0 to below 20.5 % (more is nearly fresh air, which holds 20.95 %), got 21 %.\n" +
        "combustion: --co: expected 0 to 20000 ppm, got -3 ppm.\n",
    });
  });
  it("refuses unreadable flags with status 2", async () => {
    const ran = await cli(["combustion", "--fuel", "peat", "--o2", "5"]);
    expect(ran).toEqual({
      status: 2,
      out: "",
      rows: [],
      err: 'combustion: --fuel: expected one of natural-gas, propane, methane, butane, got "peat".\n',
    });
  });
});

describe("flags that cannot be read: status 2, every problem", () => {
  it.each<[string, readonly string[]]>([
    ["--fuel propane", ["--o2, --co2: expected exactly one of them, got neither"]],
    [
      "--fuel propane --o2 5 --co2 9",
      ["--o2, --co2: expected exactly one of them, got both: one follows from the other"],
    ],
    ["--fuel propane --o2 five", ['--o2: expected a number, got "five"']],
    ["--fuel propane --o2 5,5", ['--o2: expected a number, got "5,5"']],
    ["--fuel propane --o2 1e1", ['--o2: expected a number, got "1e1"']],
    ["--fuel propane --o2 NaN", ['--o2: expected a number, got "NaN"']],
    ["--fuel propane --o2=", ['--o2: expected a number, got ""']],
    ["--fuel propane --o2", ['--o2: expected a number, got ""']],
    ["--fuel propane --o2 5 --flue 60", ["--flue, --air: expected both temperatures or neither, got one"]],
    ["--fuel propane --o2 5 --air 20", ["--flue, --air: expected both temperatures or neither, got one"]],
    ["--fuel propane --o2 5 --o2 6", ["--o2: expected once, got twice"]],
    ["--fuel propane --o2 5 9", ['expected only flags, got "9"']],
    [
      "--fuel propane --o2 5 --oxygen=5",
      ["--oxygen: expected one of --fuel, --o2, --co2, --co, --flue, --air, --altitude"],
    ],
    [
      "",
      [
        "--fuel: expected one of natural-gas, propane, methane, butane, got nothing",
        "--o2, --co2: expected exactly one of them, got neither",
      ],
    ],
    [
      "--fuel wood --o2 x --co y",
      [
        '--fuel: expected one of natural-gas, propane, methane, butane, got "wood"',
        '--o2: expected a number, got "x"',
        '--co: expected a number, got "y"',
      ],
    ],
  ])("%s", async (line, problems) => {
    const { status, out, err } = await verb(line);
    expect(err).toEqual(problems.map((problem) => `combustion: ${problem}.`));
    expect({ status, out }).toEqual({ status: 2, out: [] });
  });
});

describe("numbers that cannot be right: status 1", () => {
  it.each([
    ["--fuel natural-gas --o2 -1", /--o2: expected 0 to below 20\.5 %/],
    ["--fuel natural-gas --o2 20.9", /--o2: .*nearly fresh air/],
    ["--fuel natural-gas --co2 12.5", /--co2: .*11\.89 % that natural-gas can make, got 12\.5 %/],
    ["--fuel natural-gas --co2 0", /--co2: expected above/],
    ["--fuel natural-gas --o2 5 --altitude 9000", /--altitude: expected -500 to 6000 m, got 9000 m/],
    [
      "--fuel natural-gas --o2 5 --flue 10 --air 20",
      /--flue: expected no less than the air temperature of 20 °C/,
    ],
    ["--fuel natural-gas --o2 5 --flue 601 --air 20", /--flue: expected 0 to 600 °C/],
    ["--fuel natural-gas --o2 5 --flue 60 --air 151", /--air: expected -40 to 150 °C/],
  ])("%s", async (line, sentence) => {
    const { status, out, err } = await verb(line);
    expect(err).toHaveLength(1);
    expect(err[0]).toMatch(sentence);
    expect({ status, out }).toEqual({ status: 1, out: [] });
  });
});

describe("accepted", () => {
  it.each(["natural-gas", "propane", "methane", "butane"])("%s", async (fuel) => {
    const { status, out, err } = await verb(`--fuel ${fuel} --co2 9.2`);
    expect({ status, err }).toEqual({ status: 0, err: [] });
    expect(out).toEqual([expect.objectContaining({ co2: 9.2, coAirFree: null, efficiencyNetPercent: null })]);
  });
});
