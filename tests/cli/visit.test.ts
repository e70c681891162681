import { describe, expect, it, vi } from "vitest";
import { z } from "zod";
import { Judgement } from "../../src/judge/judgement.ts";
import { Item, Unsure } from "../../src/meaning/item.ts";
import { cli, converse } from "../support/cli.ts";
import { testFolder } from "../support/folder.ts";
import { PRESSURE_SHEET, PROPANE, sheet } from "../support/sheets.ts";

// Each case starts a process: slow on a busy machine, and not what is tested.
vi.setConfig({ testTimeout: 60_000 });

const { path: folder, file } = testFolder();
const SHEET = file("sheet.json", JSON.stringify(PRESSURE_SHEET));
const PROPANE_SHEET = file("propane.json", JSON.stringify(sheet({ fuels: { propane: PROPANE } })));

async function visit(args: string[], lines: string[]) {
  const input = lines.map((line) => `${line}\n`).join("");
  const { status, err, rows } = await cli(["visit", ...args], input);
  return { status, err, out: rows.map((row) => Line.parse(row)) };
}

/** The contract of design section 7: these keys and no others, in this order. */
const Line = z.strictObject({
  at: z.iso.datetime(),
  heard: z.array(Item),
  unsure: z.array(Unsure),
  answer: z.string(),
  ...Judgement.pick({ verdicts: true, advice: true, warnings: true, stage: true, next: true }).shape,
});

const at = (clock: string, phrase: string) => `2026-11-25T${clock}Z\t${phrase}`;

describe("a visit from the command line", () => {
  it("judges, advises, waits, and goes on", async () => {
    const { status, err, out } = await visit(
      ["--sheet", SHEET],
      [
        at("09:00:00", "static gas pressure seven inches"),
        at("09:01:00", "high fire CO2 eight point four, CO forty"),
        at("09:02:00", "one turn clockwise"),
        at("09:02:30", "CO2 nine"),
        at("09:03:00", "CO2 nine, CO forty five"),
        at("09:04:00", "low fire CO2 ninety"),
      ],
    );
    expect([status, err]).toEqual([0, ""]);
    expect(out.map((line) => line.advice.action)).toEqual([
      "go-to",
      "turn",
      "wait",
      "wait",
      "go-to",
      "go-to",
    ]);
    expect(out.map((line) => line.verdicts.map(({ verdict }) => verdict).join(" "))).toEqual([
      "pass",
      "fail pass",
      "",
      "wait",
      "pass pass",
      "",
    ]);
    expect(out[1]).toMatchObject({
      at: "2026-11-25T09:01:00.000Z",
      heard: [
        { quantity: "co2", value: 8.4, firing: "high" },
        { quantity: "co", value: 40, unit: "[ppm]" },
      ],
      verdicts: [
        {
          quantity: "co2",
          firing: "high",
          value: 8.4,
          unit: "%",
          verdict: "fail",
          limit: { min: 8.7, max: 9.7 },
        },
        {
          quantity: "co",
          firing: "high",
          value: 40,
          unit: "[ppm]",
          verdict: "pass",
          limit: { min: null, max: 175 },
        },
      ],
      // What it expects is for the tests of the judge.
      advice: { action: "turn", adjuster: "high", turns: 1, waitSeconds: 60 },
      stage: "high-fire",
    });
    expect(out[2]?.advice).toEqual({ action: "wait", seconds: 60 });
    expect(out[3]?.warnings.map(({ code }) => code)).toEqual(["read-too-early"]);
    expect(out[5]).toMatchObject({ unsure: [{ candidates: [{ value: 9 }] }], answer: "C O 2 nine?" });
  });

  const settings: [string, string[], string, object][] = [
    [
      "without a sheet nothing is judged",
      [],
      "high fire CO2 nine point two",
      {
        verdicts: [{ verdict: "no-limit", limit: null }],
        advice: { action: "none" },
        answer: "C O 2 nine point two. No sheet, not judged.",
      },
    ],
    [
      "natural gas unless said otherwise",
      ["--sheet", SHEET],
      "high fire CO2 nine point two",
      { verdicts: [{ verdict: "pass" }] },
    ],
    [
      "few words",
      ["--sheet", SHEET, "--talk", "short"],
      "high fire CO2 nine point two",
      { answer: "Nine point two, good. Read C O." },
    ],
    [
      "many words",
      ["--sheet", SHEET, "--talk", "full"],
      "high fire CO2 nine point two",
      { answer: expect.stringContaining("good, eight point seven to nine point seven. Read C O: ") },
    ],
    [
      "US units unless said otherwise",
      ["--sheet", SHEET],
      "static gas pressure seven",
      { verdicts: [{ value: 7, unit: "[in_i'H2O]" }] },
    ],
    [
      "SI units",
      ["--sheet", SHEET, "--units", "si"],
      "static gas pressure eighteen",
      { verdicts: [{ value: 18, unit: "mbar" }] },
    ],
    ["an offset in the time", [], "2026-11-25T10:00:00+01:00\thigh fire", { at: "2026-11-25T09:00:00.000Z" }],
  ];
  it.each(settings)("%s", async (_name, args, phrase, expected) => {
    const { status, out } = await visit(args, [phrase]);
    expect(status).toBe(0);
    expect(out).toMatchObject([expected]);
  });

  it("a gas that the sheet does not have: said at the start and in the answer, never a pass", async () => {
    const { status, err, out } = await visit(
      ["--sheet", SHEET, "--fuel", "propane"],
      ["high fire CO2 nine point two"],
    );
    expect([status, err]).toEqual([0, "visit: This sheet has no limits for propane. Nothing is judged.\n"]);
    expect(out).toMatchObject([
      {
        verdicts: [{ verdict: "no-limit" }],
        answer: "C O 2 nine point two. This sheet has no limits for propane.",
      },
    ]);
  });

  it("the sheet's only gas, unless said otherwise, and said", async () => {
    const { status, err, out } = await visit(["--sheet", PROPANE_SHEET], ["high fire CO2 ten"]);
    expect([status, err]).toEqual([0, "visit: The sheet has limits for propane only: taken as the gas.\n"]);
    expect(out).toMatchObject([{ verdicts: [{ verdict: "pass", limit: { min: 9.5, max: 10.5 } }] }]);
  });

  it("less talk holds from the next answer on", async () => {
    const { out } = await visit(["--sheet", SHEET], ["say less", "high fire CO2 nine point two", "say more"]);
    expect(out.map(({ answer }) => answer)).toEqual([
      "Short answers.",
      "Nine point two, good. Read C O.",
      "Normal answers.",
    ]);
  });

  it("times that go backwards are said and taken as they are; waits never grow", async () => {
    const { status, err, out } = await visit(
      ["--sheet", SHEET],
      [at("09:10:00", "high fire"), at("09:09:00", "one turn clockwise"), at("08:00:00", "how long left")],
    );
    expect([status, err.trim().split("\n")]).toEqual([
      0,
      [
        "visit: line 2: expected a time from 2026-11-25T09:10:00.000Z on, got 2026-11-25T09:09:00.000Z; taken as it is.",
        "visit: line 3: expected a time from 2026-11-25T09:09:00.000Z on, got 2026-11-25T08:00:00.000Z; taken as it is.",
      ],
    ]);
    expect(out.at(-1)?.answer).toBe("Sixty seconds left.");
  });

  it("empty lines are passed over, and no lines are no visit", async () => {
    expect((await visit([], ["", "  ", "high fire"])).out).toHaveLength(1);
    expect(await visit([], [])).toEqual({ status: 0, err: "", out: [] });
  });

  it("asks for what is missing, and takes the answer", async () => {
    const { status, out } = await visit(
      ["--sheet", SHEET],
      [
        at("09:00:00", "high fire CO2"),
        at("09:00:05", "yes"),
        at("09:00:10", "nine point two"),
        at("09:01:00", "CO2 eight point six low"),
        at("09:01:05", "no"),
        at("09:01:10", "no"),
        at("09:01:15", "yes"),
      ],
    );
    expect(status).toBe(0);
    expect(out.map(({ answer }) => answer)).toEqual([
      "High fire. C O 2: how much?",
      "C O 2: how much?",
      "C O 2 nine point two, good. Read C O.",
      "Low fire C O 2 eight point six?",
      "C O 2 eight point six?",
      "Dropped. Read C O.",
      "Nothing to confirm.",
    ]);
    expect(out[0]?.unsure).toMatchObject([
      { text: "CO2", candidates: [], question: { asks: "value", quantity: "co2", firing: "high" } },
    ]);
    expect(out[2]?.heard).toMatchObject([{ quantity: "co2", value: 9.2, firing: "high" }]);
    expect(out[2]?.verdicts).toMatchObject([{ quantity: "co2", firing: "high", verdict: "pass" }]);
  });

  it("answers each line at once, before the next is said", async () => {
    const heard = await converse(["visit"], ["high fire", "low fire"]);
    expect(heard.map((row) => Line.parse(row).answer)).toEqual(["High fire.", "Low fire."]);
  });
});

describe("bad input: one clear sentence that names the place; status 2 for the flags, 1 for what they name", () => {
  const broken = file("broken.json", JSON.stringify({ ...sheet(), settleSeconds: { high: -1, low: 60 } }));
  const cases: [string, string[], string[], RegExp, status?: number][] = [
    [
      "a bad time names its line",
      [],
      [at("09:00:00", "high fire"), "yesterday\tCO2 nine"],
      /^visit: line 2: expected an ISO 8601 time .*"yesterday"\.\n$/,
    ],
    [
      "a date that does not exist",
      [],
      ["2026-13-01T00:00:00Z\thigh fire"],
      /^visit: line 1: expected an ISO 8601 time/,
    ],
    [
      "a time without its offset",
      [],
      ["2026-11-25T09:00:00\thigh fire"],
      /^visit: line 1: expected an ISO 8601 time/,
    ],
    [
      "no such sheet",
      ["--sheet", "/nowhere/sheet.json"],
      ["high fire"],
      /^visit: \/nowhere\/sheet\.json: expected a readable limits sheet/,
    ],
    [
      "a folder for a sheet",
      ["--sheet", folder],
      ["high fire"],
      /^visit: .*: expected a readable limits sheet/,
    ],
    ["a sheet that is no JSON", ["--sheet", file("text.json", "{")], ["high fire"], /^visit: .*text\.json: /],
    [
      "a sheet with a wrong value names the path",
      ["--sheet", broken],
      ["high fire"],
      /^visit: .*broken\.json: settleSeconds\.high: /,
    ],
    [
      "an unknown gas",
      ["--fuel", "butane"],
      ["high fire"],
      /^visit: --fuel: expected natural-gas or propane, got "butane"\.\n$/,
      2,
    ],
    [
      "an unknown level of talk",
      ["--talk", "loud"],
      ["high fire"],
      /^visit: --talk: expected short, normal or full, got "loud"\.\n$/,
      2,
    ],
    [
      "unknown units",
      ["--units", "metric"],
      ["high fire"],
      /^visit: --units: expected us or si, got "metric"\.\n$/,
      2,
    ],
    [
      "an unknown flag",
      ["--sheets", SHEET],
      ["high fire"],
      /^visit: expected --sheet FILE, --fuel, --units and --talk only/,
      2,
    ],
  ];
  it.each(cases)("%s", async (_name, args, lines, expected, wanted = 1) => {
    const { status, err } = await visit(args, lines);
    expect(status).toBe(wanted);
    expect(err).toMatch(expected);
  });
  it("what was answered before the bad line stands", async () => {
    expect((await visit([], [at("09:00:00", "high fire"), "x\ty"])).out).toHaveLength(1);
  });
  it("all wrong flags are told", async () => {
    const { err } = await visit(["--fuel", "x", "--units", "y", "--talk", "z"], []);
    expect(err.trim().split("\n")).toHaveLength(3);
  });
});
