import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { run, verb } from "../support/combustion.ts";

const NEITHER = [
  "--fuel: expected one of natural-gas, propane, methane, butane, got nothing",
  "--o2, --co2: expected exactly one of them, got neither",
];
const [METER, CIRCUIT] = ["--meter-time 36 --dial 0.01m3", "--flow 12 --supply 60 --return 40"];

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
      [
        "--oxygen: expected one of --fuel, --composition, --o2, --co2, --co, --flue, --air, --altitude, --meter-time, --dial, --gas-pressure, --gas-temperature, --flow, --supply, --return, --details",
      ],
    ],
    ["", NEITHER],
    [
      "--fuel wood --o2 x --co y",
      [
        '--fuel: expected one of natural-gas, propane, methane, butane, got "wood"',
        '--o2: expected a number, got "x"',
        '--co: expected a number, got "y"',
      ],
    ],
    [`${CIRCUIT} --details`, NEITHER],
    [`${CIRCUIT} --co 40`, NEITHER],
    [METER, NEITHER.slice(0, 1)],
    [
      `--fuel propane ${METER} --o2 5 --co2 9`,
      ["--o2, --co2: expected exactly one of them, got both: one follows from the other"],
    ],
    ["--fuel propane --o2 5 --details=yes", ['--details: expected no value, got "yes"']],
    ["--fuel propane --o2 5 --details --details", ["--details: expected once, got twice"]],
    ["--fuel propane --o2 5 --meter-time 60", ["--meter-time, --dial: expected both or neither, got one"]],
    ["--fuel propane --o2 5 --dial 1ft3", ["--meter-time, --dial: expected both or neither, got one"]],
    ...["1", "1l", "ft3", "1e3m3", "NaNm3", "-m3", "1m3x", ""].map((dial): [string, readonly string[]] => [
      `--fuel propane --o2 5 --meter-time 60 --dial=${dial}`,
      [`--dial: expected a volume with its unit, 0.01m3 or 2ft3, got "${dial}"`],
    ]),
    [
      "--fuel propane --o2 5 --gas-pressure 20",
      ["--gas-pressure, --gas-temperature: expected only beside --meter-time and --dial"],
    ],
    [
      "--fuel propane --o2 5 --gas-temperature 20",
      ["--gas-pressure, --gas-temperature: expected only beside --meter-time and --dial"],
    ],
    [
      "--fuel propane --o2 5 --flow 10 --supply hot",
      [
        "--flow, --supply, --return: expected all of them or none, got 2",
        '--supply: expected a number, got "hot"',
      ],
    ],
    [
      "--fuel propane --o2 5 --return 60",
      ["--flow, --supply, --return: expected all of them or none, got one"],
    ],
    [
      "--composition methane,ethane=x,=1,a=1=2 --o2 5",
      ["methane", "ethane=x", "=1", "a=1=2"].map(
        (part) => `--composition: expected MOLECULE=FRACTION, got "${part}"`,
      ),
    ],
    ["--composition methane=0.5,methane=0.5 --o2 5", ["--composition: methane: expected once, got twice"]],
    [
      "--composition methane=93,ethane=7 --o2 5",
      [
        "--composition: methane: expected a mole fraction of 0 to 1, got 93",
        "--composition: ethane: expected a mole fraction of 0 to 1, got 7",
      ],
    ],
    [
      "--composition methane=0.9 --o2 5",
      ["--composition: expected mole fractions that sum to 1 within 0.005, got 0.9"],
    ],
    [
      "--composition methane=1,__proto__=0.1 --o2 5",
      ['--composition: expected MOLECULE=FRACTION, got "__proto__=0.1"'],
    ],
    [
      "--composition methane=0.9,argon=0.1 --o2 5",
      [
        "--composition: argon: expected one of methane, ethane, propane, n-butane, isobutane, n-pentane, isopentane, neopentane, n-hexane, propylene, hydrogen, carbon-monoxide, carbon-dioxide, nitrogen, oxygen",
      ],
    ],
    [
      "--fuel peat --composition methane=1 --o2 5",
      ['--fuel: expected one of natural-gas, propane, methane, butane, got "peat"'],
    ],
  ])("%s", async (line, problems) => {
    const { status, out, err } = await verb(line);
    expect(err).toEqual(problems.map((problem) => `combustion: ${problem}.`));
    expect({ status, out }).toEqual({ status: 2, out: [] });
  });
});

describe("always", () => {
  const FLAGS = [
    "--fuel",
    "--composition",
    "--o2",
    "--co2",
    "--co",
    "--flue",
    "--air",
    "--altitude",
    "--meter-time",
    "--dial",
    "--gas-pressure",
    "--gas-temperature",
    "--flow",
    "--supply",
    "--return",
    "--details",
  ];
  const value = fc.oneof(
    fc.integer({ min: -50, max: 700 }).map(String),
    fc.double({ min: 0, max: 30, noNaN: true }).map((number) => number.toFixed(2)),
    fc.constantFrom(
      "natural-gas",
      "propane",
      "NaN",
      "Infinity",
      "2ft3",
      "0.01m3",
      "methane=1",
      "methane=0.9,nitrogen=0.1",
    ),
    fc.string(),
  );
  const line = fc.array(fc.tuple(fc.constantFrom(...FLAGS), value), { maxLength: 8 });
  it("status 0 comes with one line of finite numbers or null, any other with reasons and no line", async () => {
    await fc.assert(
      fc.asyncProperty(line, async (pairs) => {
        const { status, out, err } = await run(pairs.flat());
        if (status === 0) {
          expect({ lines: out.length, err }).toEqual({ lines: 1, err: [] });
          for (const number of Object.values(out[0] ?? {}))
            expect(number === null || Number.isFinite(number)).toBe(true);
        } else {
          expect([1, 2]).toContain(status);
          expect(out).toEqual([]);
          expect(err.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 1000 },
    );
  });
  // Each a little beyond its range at one end or both.
  const RANGES: readonly (readonly [string, number, number])[] = [
    ["--o2", -0.5, 21],
    ["--co", -100, 20_500],
    ["--flue", 15, 605],
    ["--air", -41, 30],
    ["--altitude", -510, 6100],
    ["--meter-time", 0, 3650],
    ["--dial", -0.1, 20],
    ["--gas-pressure", -1, 102],
    ["--gas-temperature", -41, 61],
    ["--flow", -1, 1010],
    ["--supply", 60, 151],
    ["--return", -1, 62],
  ];
  it("numbers in and about their ranges give finite numbers or reasons", async () => {
    const numbers = fc.tuple(
      ...RANGES.map(([, min, max]) => fc.integer({ min: min * 1000, max: max * 1000 })),
    );
    let answered = 0;
    await fc.assert(
      fc.asyncProperty(numbers, async (values) => {
        const flags = RANGES.map(
          ([flag], index) => `${flag} ${(values[index] ?? 0) / 1000}${flag === "--dial" ? "m3" : ""}`,
        );
        const { status, out, err } = await verb(`--fuel butane ${flags.join(" ")} --details`);
        expect({ status, problems: err.length > 0 }).toEqual(
          out.length === 1 ? { status: 0, problems: false } : { status: 1, problems: true },
        );
        for (const number of Object.values(out[0] ?? {}))
          expect(number === null || Number.isFinite(number)).toBe(true);
        answered += out.length;
      }),
      { numRuns: 500 },
    );
    expect(answered).toBeGreaterThan(50);
  });
});
