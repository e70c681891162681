import type { SessionWorld } from "../../src/app/boiler/session-world.ts";
import type { Entry, EntryBody, Reading } from "../../src/visit/entry.ts";
import type { Visit } from "../../src/visit/visit.ts";

/** A reading body, all of it said. */
export function reading(change: Partial<Reading> = {}): Reading {
  return {
    kind: "reading",
    quantity: "co2",
    value: 9.2,
    unit: "%",
    firing: "high",
    condition: null,
    dial: null,
    origin: { value: "said", unit: "said", firing: "said", condition: "said" },
    ...change,
  };
}

/** Typed entries one second apart, ids e0, e1 … */
export function entries(...bodies: readonly EntryBody[]): Entry[] {
  return bodies.map((body, seq) => ({
    id: `e${seq}`,
    seq,
    at: new Date(Date.UTC(2026, 10, 25, 8, 0, seq)).toISOString(),
    engine: "typed",
    phrase: `phrase ${seq}`,
    said: `words ${seq}`,
    confidence: 1,
    body,
  }));
}

/** A visit without a sheet in Vienna. */
export function visitOf(...bodies: readonly EntryBody[]): Visit {
  return {
    format: "burnerside-visit/1",
    head: {
      id: "v1",
      title: "Cellar",
      startedAt: "2026-11-25T08:00:00.000Z",
      zone: "Europe/Vienna",
      fuel: "natural-gas",
      units: "si",
      sheet: null,
    },
    entries: entries(...bodies),
  };
}

/** What a session knows of other windows and of a store that loses things: nothing. */
export const ALONE: Pick<SessionWorld, "entriesFrom" | "onAdded" | "storeAnew" | "troubleOf"> = {
  entriesFrom: async () => [],
  onAdded: () => () => {},
  storeAnew: async () => {},
  troubleOf: () => "other",
};
