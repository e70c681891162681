import { describe, expect, it } from "vitest";
import { cli } from "../support/cli.ts";

describe("parse, as a process", () => {
  it("writes one JSON line for each phrase, in the shape of the contract", async () => {
    const phrases = [
      "high fire CO2 nine point two, CO forty",
      "",
      "CO2 ninety two",
      "hand me the four millimetre key",
    ];
    const { status, err, rows } = await cli(["parse"], `${phrases.join("\n")}\n`);
    const reading = {
      kind: "reading",
      firing: "high",
      condition: null,
      dial: null,
      confidence: expect.any(Number),
    };
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(rows).toEqual([
      {
        text: phrases[0],
        items: [
          { ...reading, quantity: "co2", value: 9.2, unit: "%", said: "CO2 nine point two" },
          { ...reading, quantity: "co", value: 40, unit: "[ppm]", said: "CO forty" },
        ],
        unsure: [],
      },
      { text: "", items: [], unsure: [] },
      {
        text: "CO2 ninety two",
        items: [],
        unsure: [
          {
            text: "CO2 ninety two",
            reason: "CO2 cannot be 92 %",
            candidates: [
              { ...reading, firing: null, quantity: "co2", value: 9.2, unit: "%", said: "CO2 ninety two" },
            ],
          },
        ],
      },
      { text: phrases[3], items: [], unsure: [] },
    ]);
  });

  it("takes no arguments, and says so", async () => {
    const { status, out, err } = await cli(["parse", "phrases.txt"]);
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err).toBe(
      'parse: expected no arguments, found "phrases.txt"; phrases are read from standard input.\n',
    );
  });

  it("names the verbs when the verb is unknown", async () => {
    const { status, err } = await cli(["hark"]);
    expect(status).toBe(2);
    expect(err).toContain('Expected a verb, found "hark".');
    expect(err).toContain("parse < PHRASES");
  });
});
