import type { Entry, EntryBody, Reading } from "../../src/visit/entry.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { sheet } from "./sheets.ts";

/** Appliances of an invented office: each is visited again and again. */
const APPLIANCES_OF = 5;

/** A numbers' generator with a seed, 0 to 1: the same visit each time (mulberry32, public domain). */
function chance(seed: number): () => number {
  let a = (seed + 1) * 0x9e3779b9;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const NOTES = [
  "come back in two weeks and replace the condensate trap gasket",
  "order a flame sensing electrode",
  "cleaned the burner and the trap",
  "call the caretaker tomorrow about the flue terminal",
  "the expansion vessel is low, check it next Tuesday",
  "customer hears a hum at low fire",
] as const;

const said: Reading["origin"] = { value: "said", unit: "said", firing: "said", condition: "said" };

function reading(changes: Partial<Reading>): Reading {
  const rest = { kind: "reading", firing: null, condition: null, dial: null, origin: said } as const;
  return { quantity: "co2", value: 9, unit: "%", ...rest, ...changes };
}

type Spoken = readonly [seconds: number, phrase: string, body: EntryBody];

/** One round of the work: both firings read, turned and read again; `id` gives the id of an entry said before in it. */
function round(next: () => number, number: number, idOf: (place: number) => string): Spoken[] {
  const tenth = (from: number, to: number) => Math.round((from + (to - from) * next()) * 10) / 10;
  const ppm = () => Math.round(15 + 60 * next());
  const co2 = (firing: "high" | "low", value: number, gap: number): Spoken => [
    gap,
    `CO2 ${value}`,
    reading({ value, firing }),
  ];
  const co = (firing: "high" | "low", value: number): Spoken => [
    8,
    `CO ${value}`,
    reading({ quantity: "co", unit: "[ppm]", value, firing }),
  ];
  const turn = (adjuster: "high" | "low", turns: number): Spoken => [
    15,
    `${Math.abs(turns)} ${turns > 0 ? "clockwise" : "counterclockwise"}`,
    { kind: "adjustment", adjuster, turns, origin: { adjuster: "assumed" } },
  ];
  const gas = (condition: "static" | "dynamic", value: number): Spoken => [
    20,
    `${condition} gas pressure ${value} inches`,
    reading({ quantity: "gas-pressure-inlet", unit: "[in_i'H2O]", value, condition }),
  ];
  const high = tenth(8.6, 9.4);
  const note = NOTES[Math.floor(next() * NOTES.length)] ?? NOTES[0];
  return [
    gas("static", tenth(6, 9)),
    gas("dynamic", tenth(5, 6)),
    [12, "high fire", { kind: "firing", firing: "high" }],
    co2("high", tenth(8.2, 9.8), 30),
    co("high", ppm()),
    [12, "low fire", { kind: "firing", firing: "low" }],
    co2("low", tenth(8.2, 9.4), 70),
    co("low", ppm()),
    [12, "high fire", { kind: "firing", firing: "high" }],
    turn("high", next() < 0.5 ? 0.25 : -0.25),
    co2("high", high, 75),
    co("high", ppm()),
    [5, "scratch that", { kind: "strike", target: idOf(11) }],
    co("high", ppm()),
    [6, `room CO ${number % 4}`, reading({ quantity: "co-ambient", unit: "[ppm]", value: number % 4 })],
    [12, "low fire", { kind: "firing", firing: "low" }],
    turn("low", next() < 0.5 ? 0.1 : -0.1),
    co2("low", tenth(high - 0.3, high), 80),
    co("low", ppm()),
    [10, "flue temperature 54", reading({ quantity: "flue-temperature", unit: "Cel", value: 54 })],
    [12, "high fire", { kind: "firing", firing: "high" }],
    co2("high", high, 70),
    co("high", ppm()),
    // A note in every second round: two or three in a visit of a hundred entries.
    number % 2 === 0
      ? [9, `note ${note}`, { kind: "note", text: note }]
      : [5, "test port is plugged", { kind: "check", item: "test-port", done: true }],
  ];
}

/** An invented visit, by its number: one of the appliances of an office, in a row of years; of so many entries. */
export function inventedVisit(number: number, entries = 100): Visit {
  const next = chance(number);
  const id = `invented-${number}`;
  const appliance = Math.floor(number / APPLIANCES_OF);
  const year = 2022 + (number % APPLIANCES_OF);
  const startedMs = Date.UTC(year, appliance % 12, 1 + (appliance % 28), 8, appliance % 60);
  const log: Entry[] = [];
  let seconds = 0;
  const add = ([gap, phrase, body]: Spoken) => {
    seconds += gap;
    log.push({
      id: `${id}-${log.length}`,
      seq: log.length,
      at: new Date(startedMs + seconds * 1000).toISOString(),
      engine: "offline",
      phrase,
      said: phrase,
      confidence: Math.round((0.86 + 0.14 * next()) * 1000) / 1000,
      body,
    });
  };
  add([
    0,
    "",
    {
      kind: "details",
      details: {
        appliance: `INV ${String(appliance).padStart(5, "0")}`,
        place: `Invented Lane ${1 + (appliance % 200)}`,
        technician: `T${1 + (appliance % 9)}`,
        licence: `L${1 + (appliance % 9)}`,
        firm: `Invented firm ${1 + (appliance % 3)}`,
        instrument: { name: "Invented analyser", serial: `A${appliance % 9}`, calibratedOn: `${year}-01-15` },
      },
    },
  ]);
  for (let of = 0; log.length < entries; of += 1) {
    const from = log.length;
    for (const spoken of round(next, of, (place) => `${id}-${from + place}`)) add(spoken);
  }
  return {
    format: "burnerside-visit/1",
    head: {
      id,
      title: `Invented Lane ${1 + (appliance % 200)}, boiler`,
      startedAt: new Date(startedMs).toISOString(),
      zone: "Europe/Vienna",
      fuel: "natural-gas",
      units: "us",
      sheet: sheet(),
    },
    entries: log.slice(0, entries),
  };
}
