import type { Phrase } from "../../src/meaning/heard.ts";
import type { Command, Item, Meaning, ReadingItem, Unsure } from "../../src/meaning/item.ts";
import type { Check, Condition, Firing } from "../../src/measure/firing.ts";
import type { QuantityId } from "../../src/measure/quantity.ts";
import { onlyUnit } from "../../src/measure/quantity.ts";
import type { Unit } from "../../src/measure/unit.ts";
import { entriesOf } from "../../src/visit/enter.ts";
import type { Entry } from "../../src/visit/entry.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import type { VisitState } from "../../src/visit/state.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import { sheet } from "./sheets.ts";

/** One utterance in a test: seconds from the start of the visit, then what it means. */
export type Said = readonly [seconds: number, ...things: (Item | Unsure)[]];

const START = Date.parse("2026-11-25T08:00:00Z");
export const time = (seconds: number) => new Date(START + seconds * 1000).toISOString();

export function head(changes: Partial<VisitHead> = {}): VisitHead {
  return {
    id: "visit-1",
    title: "Test visit",
    startedAt: time(0),
    zone: null,
    fuel: "natural-gas",
    units: "us",
    sheet: sheet(),
    ...changes,
  };
}

export function typed(text: string): Phrase {
  return { text, engine: "typed", confidence: 1, sound: null };
}

export function meaningOf(...things: (Item | Unsure)[]): Meaning {
  return {
    text: "test phrase",
    items: things.filter((thing): thing is Item => "kind" in thing),
    unsure: things.filter((thing): thing is Unsure => "candidates" in thing),
  };
}

/** Plays utterances through `entriesOf`, as the app does. `since` holds the last one's entries. */
export function play(
  script: readonly Said[],
  changes: Partial<VisitHead> = {},
): { visit: Visit; state: VisitState; since: readonly Entry[]; now: string } {
  let visit: Visit = { format: "burnerside-visit/1", head: head(changes), entries: [] };
  let since: readonly Entry[] = [];
  let now = time(0);
  let ids = 0;
  for (const [seconds, ...things] of script) {
    now = time(seconds);
    since = entriesOf(meaningOf(...things), typed("test phrase"), foldVisit(visit), now, () => `e${ids++}`);
    visit = { ...visit, entries: [...visit.entries, ...since] };
  }
  return { visit, state: foldVisit(visit), since, now };
}

interface Details {
  readonly unit?: Unit;
  readonly firing?: Firing;
  readonly condition?: Condition;
}

export function reading(quantity: QuantityId, value: number, details: Details = {}): ReadingItem {
  return {
    kind: "reading",
    quantity,
    value,
    unit: details.unit ?? onlyUnit(quantity),
    firing: details.firing ?? null,
    condition: details.condition ?? null,
    dial: null,
    said: `${quantity} ${value}`,
    confidence: 1,
  };
}

export const co2 = (value: number, firing?: Firing) => reading("co2", value, firing ? { firing } : {});
export const o2 = (value: number, firing?: Firing) => reading("o2", value, firing ? { firing } : {});
export const co = (value: number, firing?: Firing) => reading("co", value, firing ? { firing } : {});
export const room = (value: number) => reading("co-ambient", value);
export const gas = (value: number, condition?: Condition, unit?: Unit) =>
  reading("gas-pressure-inlet", value, { ...(condition ? { condition } : {}), ...(unit ? { unit } : {}) });

export const high: Item = { kind: "firing", firing: "high" };
export const low: Item = { kind: "firing", firing: "low" };
export const turn = (turns: number, adjuster: Firing | null = null): Item => ({
  kind: "adjustment",
  adjuster,
  turns,
});
export const strike: Item = { kind: "strike" };
export const replace = (value: number, unit: Unit | null = null): Item => ({ kind: "replace", value, unit });
export const note = (text: string): Item => ({ kind: "note", text });
export const check = (item: Check, done = true): Item => ({ kind: "check", item, done });
export const command = (name: Command): Item => ({ kind: "command", command: name });
export const unsure = (text: string, ...candidates: Item[]): Unsure => ({
  text,
  reason: "not understood",
  candidates,
});
