import { describe, expect, it } from "vitest";
import { combustion } from "../../src/cli/combustion.ts";
import { near } from "../combustion/support.ts";
import { cli } from "../support/cli.ts";
import { verb } from "../support/combustion.ts";

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

const INPUT = ["gasRateMeter", "gasRateReference", "inputGross", "inputNet"];
const WATER = ["waterHeat", "waterHeatBtuPerHour"];
const [METER, CIRCUIT] = ["--meter-time 36 --dial 0.01m3", "--flow 12 --supply 60 --return 40"];

describe("only what was asked for", () => {
  it.each([
    [`--fuel natural-gas ${METER}`, [...INPUT, "inputGrossBtuPerHour", "inputNetBtuPerHour"]],
    [
      `--composition methane=1 ${METER} --altitude 500`,
      [...INPUT, "inputGrossBtuPerHour", "inputNetBtuPerHour"],
    ],
    [CIRCUIT, WATER],
    [`--fuel propane ${CIRCUIT}`, WATER],
    [`--fuel propane ${CIRCUIT} --o2 5`, [...KEYS, ...WATER]],
  ])("%s", async (line, keys) => {
    const ran = await verb(line);
    expect({ ...ran, out: ran.out.map((each) => Object.keys(each ?? {})) }).toEqual({
      status: 0,
      err: [],
      out: [keys],
    });
  });
});

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
    ["--fuel natural-gas --o2 5 --meter-time 0 --dial 1ft3", /--meter-time: expected 1 to 3600 s, got 0 s/],
    ["--fuel natural-gas --o2 5 --meter-time 60 --dial 0m3", /--dial: expected a volume above 0 to 1000 m3/],
    [
      "--fuel natural-gas --o2 5 --meter-time 60 --dial 1m3 --gas-pressure -5",
      /--gas-pressure: expected 0 to 100 mbar, got -5 mbar/,
    ],
    [
      "--fuel natural-gas --o2 5 --meter-time 60 --dial 1m3 --gas-temperature 300",
      /--gas-temperature: expected -40 to 60 °C, got 300 °C/,
    ],
    [
      "--fuel natural-gas --o2 5 --meter-time 60 --dial 1m3 --altitude 9000",
      /--altitude: expected -500 to 6000 m, got 9000 m/,
    ],
    ["--fuel natural-gas --o2 5 --flow 0 --supply 80 --return 60", /--flow: expected above 0 to 1000 L\/min/],
    [
      "--fuel natural-gas --o2 5 --flow 9 --supply 60 --return 80",
      /--supply: expected no less than the return/,
    ],
    ["--composition methane=1 --co2 12", /--co2: .*11\.70 % that this gas can make, got 12 %/],
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

describe("more where more is asked", () => {
  const BASE = "--fuel natural-gas --o2 4.5 --co 40";
  const METER_KEYS = [
    "gasRateMeter",
    "gasRateReference",
    "inputGross",
    "inputNet",
    "inputGrossBtuPerHour",
    "inputNetBtuPerHour",
  ];
  const WATER_KEYS = ["waterHeat", "waterHeatBtuPerHour"];
  const DETAIL_KEYS = [
    "heatingValueGross",
    "heatingValueNet",
    "relativeDensity",
    "wobbeGross",
    "wobbeNet",
    "siegertLossPercent",
    "coMilligramsPerKilowattHour",
    "fuelFactor",
    "fFactorDry",
    "fFactorCarbon",
    "airDensityRatio",
    "premixInputRatio",
    "fixedOrificeInputRatio",
    "codeDeratePercent",
  ];
  const METER = "--meter-time 70 --dial 2ft3";
  const WATER = "--flow 10 --supply 80 --return 60";
  it.each([
    ["", []],
    [METER, METER_KEYS],
    [`${METER} --gas-pressure 20 --gas-temperature -5`, METER_KEYS],
    [WATER, WATER_KEYS],
    ["--details", DETAIL_KEYS],
    [`--details ${WATER} ${METER}`, [...METER_KEYS, ...WATER_KEYS, ...DETAIL_KEYS]],
  ])("%s", async (flags, keys) => {
    const { status, out, err } = await verb(`${BASE} ${flags}`);
    expect({ status, err }).toEqual({ status: 0, err: [] });
    expect(Object.keys(out[0] ?? {})).toEqual([...KEYS, ...keys]);
  });

  const field = async (line: string, name: string): Promise<unknown> => {
    const { out } = await verb(line);
    return Object.entries(out[0] ?? {}).find(([key]) => key === name)?.[1];
  };
  it.each<[string, string, number, number]>([
    // 70 s for two turns of a 1 ft3 dial are 102.86 ft3/h: NFPA 54's formula.
    [`${BASE} ${METER}`, "gasRateMeter", 102.86 * 0.0283168, 0.0002],
    [`${BASE} ${WATER}`, "waterHeat", 13.73, 0.005], // independent recalculation with IAPWS-IF97
    ["--fuel methane --o2 5 --details", "wobbeGross", 50.72, 0.005], // EN 437, G20 (from memory)
    ["--fuel propane --o2 5 --details", "heatingValueNet", 88.0, 0.045], // EN 437, G31 (from memory)
    ["--fuel natural-gas --o2 4.5 --flue 70 --air 20 --details", "siegertLossPercent", 2.45, 0.0005], // 1. BImSchV
    ["--fuel propane --o2 4.5 --flue 70 --air 20 --details", "siegertLossPercent", 2.309, 0.0005], // 1. BImSchV
    ["--fuel methane --o2 0 --co 100 --details", "coMilligramsPerKilowattHour", 107.4, 0.05], // EN 15502 (from memory)
    ["--fuel methane --o2 5 --altitude 1524 --details", "codeDeratePercent", 20, 1e-9], // NFPA 54, 5000 ft
    // ISO 6976:2016 annex D, example 1.
    [
      "--composition methane=0.933212,ethane=0.025656,propane=0.015368,nitrogen=0.01035,carbon-dioxide=0.015414 --o2 5 --details",
      "heatingValueGross",
      38.410611,
      5e-7,
    ],
  ])("%s: %s", async (line, name, expected, tolerance) => {
    near(Number(await field(line, name)), expected, tolerance);
  });
  it("a composition alone has no constants of Siegert; beside a name it has that fuel's", async () => {
    const rest = "--composition propane=0.95,propylene=0.05 --o2 4.5 --flue 70 --air 20 --details";
    expect(await field(rest, "siegertLossPercent")).toBeNull();
    near(Number(await field(`--fuel propane ${rest}`, "siegertLossPercent")), 2.309, 0.0005);
  });
  it("a composition may have spaces where the shell keeps them", async () => {
    const run = await cli(["combustion", "--composition", "methane = 0.9, ethane = 0.1", "--o2", "5"]);
    expect(run).toMatchObject({ status: 0, err: "" });
  }, 60_000);
  it("tells each problem once, of the flue gas, the meter and the water", async () => {
    const { status, err } = await verb(
      `--fuel propane --o2 21 --altitude 7000 --meter-time 0 --dial 1m3 --flow -1 --supply 80 --return 60`,
    );
    expect(status).toBe(1);
    expect(err.map((line) => /--[a-z0-9-]+/.exec(line)?.[0])).toEqual([
      "--o2",
      "--altitude",
      "--meter-time",
      "--flow",
    ]);
  });
});

describe("usage", () => {
  it("names the unit of every flag", () => {
    for (const part of [
      "--o2 %",
      "--co ppm",
      "--flue °C",
      "--altitude m",
      "--meter-time s",
      "m3|ft3",
      "--gas-pressure mbar",
      "--flow L/min",
      "--supply °C",
      "--return °C",
    ])
      expect(combustion.usage).toContain(part);
  });
});
