import fc from "fast-check";
import { CHECKS, CLOSING_CHECKS } from "../../src/measure/firing.ts";
import { QUANTITIES, QUANTITY_IDS, type QuantityId } from "../../src/measure/quantity.ts";
import { convert, UNITS, type Unit } from "../../src/measure/unit.ts";
import type { Entry, EntryBody, ItemBody, Reading } from "../../src/visit/entry.ts";
import type { Sheet } from "../../src/visit/sheet.ts";
import { ROLES, TASK_ACTIONS, type Task } from "../../src/visit/task.ts";
import type { Visit } from "../../src/visit/visit.ts";

// Sound visits and sheets of every shape, for property tests. No minus zero: JSON text has none to give back.

const number = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((value) => (value === 0 ? 0 : value));
const text = fc.string({ unit: "binary", maxLength: 30 });
const firing = fc.constantFrom("high" as const, "low" as const);
const origin = fc.constantFrom("said" as const, "assumed" as const);
const instant = fc
  .date({ min: new Date("2000-01-01T00:00:00Z"), max: new Date("2099-12-31T00:00:00Z"), noInvalidDate: true })
  .map((date) => date.toISOString());

/** A value that lies inside a quantity's hard bounds, in one of its units. A hair is kept off the bounds for rounding. */
const measured = fc
  .constantFrom(...QUANTITIES)
  .chain((quantity) =>
    fc.tuple(fc.constant(quantity), fc.constantFrom(...quantity.units), number(0.001, 0.999)),
  )
  .map(([{ id, units, min, max }, unit, share]) => ({
    quantity: id,
    unit,
    value: convert(min + (max - min) * share, units[0], unit),
  }));

const dial = fc.record({
  value: number(0.01, 100),
  unit: fc.constantFrom("[ft_i]3" as const, "m3" as const),
});
const place = {
  firing: fc.option(firing),
  condition: fc.option(fc.constantFrom("static" as const, "dynamic" as const)),
  dial: fc.option(dial),
};

const reading: fc.Arbitrary<Reading> = fc
  .tuple(
    measured,
    fc.record(place),
    fc.record({ value: origin, unit: origin, firing: origin, condition: origin }),
  )
  .map(([value, where, from]) => ({ kind: "reading", ...value, ...where, origin: from }));

const candidate = fc
  .tuple(measured, fc.record(place), text, number(0, 1))
  .map(([value, where, said, confidence]) => ({
    kind: "reading" as const,
    ...value,
    ...where,
    said,
    confidence,
  }));

const quantity = fc.constantFrom(...QUANTITY_IDS);
const question = fc.oneof(
  fc.record(
    {
      asks: fc.constant("value" as const),
      quantity,
      firing: place.firing,
      condition: place.condition,
      others: fc.array(quantity, { maxLength: 2 }),
    },
    { requiredKeys: ["asks", "quantity", "firing", "condition"] },
  ),
  fc.record({
    asks: fc.constant("quantity" as const),
    value: number(-100, 100),
    unit: fc.option(fc.constantFrom(...UNITS)),
  }),
  fc.record({ asks: fc.constant("way" as const), adjuster: place.firing, turns: number(0.01, 20) }),
  fc.record({ asks: fc.constant("screw" as const), turns: number(-20, 20) }),
);

const item: fc.Arbitrary<ItemBody> = fc.oneof(
  reading,
  fc.record({ kind: fc.constant("firing" as const), firing }),
  fc.record({
    kind: fc.constant("adjustment" as const),
    adjuster: firing,
    turns: number(-5, 5),
    origin: fc.record({ adjuster: origin }),
  }),
  fc.record({ kind: fc.constant("note" as const), text }),
  fc.record({ kind: fc.constant("check" as const), item: fc.constantFrom(...CHECKS), done: fc.boolean() }),
  fc.record({
    kind: fc.constant("mark" as const),
    mark: fc.constantFrom(
      "as-found" as const,
      "as-left" as const,
      "timer-start" as const,
      "finished" as const,
    ),
  }),
);

const named = fc.string({ minLength: 1, maxLength: 20 });
/** Of no words: what the note's words are is not known here. */
const typed = <T>(value: fc.Arbitrary<T>) => fc.record({ value, span: fc.constant(null) });
const task: fc.Arbitrary<Task> = fc.record({
  action: typed(fc.constantFrom(...TASK_ACTIONS)),
  thing: fc.option(typed(named)),
  due: fc.option(typed(fc.option(instant.map((at) => at.slice(0, 10))))),
  who: fc.option(typed(fc.constantFrom(...ROLES))),
  done: fc.boolean(),
});
const line20 = fc.string({ unit: "grapheme-ascii", maxLength: 20 });
const details = fc.record({
  appliance: line20,
  place: line20,
  technician: line20,
  licence: line20,
  firm: line20,
  instrument: fc.option(
    fc.record({
      name: line20,
      serial: line20,
      calibratedOn: fc.option(instant.map((at) => at.slice(0, 10))),
    }),
  ),
});

const body: fc.Arbitrary<EntryBody> = fc.oneof(
  { weight: 6, arbitrary: item },
  fc.record({ kind: fc.constant("strike" as const), target: fc.constant("") }),
  fc.record({ kind: fc.constant("replace" as const), target: fc.constant(""), with: item }),
  fc.record({ kind: fc.constant("answer" as const), target: fc.constant(""), accepted: fc.boolean() }),
  fc.record({
    kind: fc.constant("unsure" as const),
    unsure: fc.record(
      { text, reason: text, candidates: fc.array(candidate, { maxLength: 2 }), question },
      { requiredKeys: ["text", "reason", "candidates"] },
    ),
  }),
  fc.record({
    kind: fc.constant("tasks" as const),
    target: fc.constant(""),
    tasks: fc.array(task, { maxLength: 3 }),
  }),
  fc.record({ kind: fc.constant("details" as const), details }),
  fc.record({
    kind: fc.constant("reviewed" as const),
    by: fc.string({ unit: "binary", maxLength: 20 }).map((name) => `A${name}`),
  }),
);

const line = fc.record(
  {
    at: instant,
    engine: fc.constantFrom("typed" as const, "platform" as const, "offline" as const),
    phrase: text,
    said: text,
    confidence: number(0, 1),
    rivals: fc.array(fc.record({ text, confidence: number(0, 1) }), { maxLength: 5 }),
    body,
  },
  { requiredKeys: ["at", "engine", "phrase", "said", "confidence", "body"] },
);

/** Entries with their places, ids of their own, and corrections that point back; what has nothing to point at is a note. */
const entries: fc.Arbitrary<Entry[]> = fc.array(fc.tuple(line, fc.nat()), { maxLength: 8 }).map((lines) =>
  lines.reduce<Entry[]>((done, [{ body, ...rest }, back], seq) => {
    const ids = body.kind === "tasks" ? notesIn(done) : done.map(({ id }) => id);
    const aimed = "target" in body ? aim(body, ids, back) : body;
    done.push({ id: `e${seq}`, seq, ...rest, body: aimed });
    return done;
  }, []),
);

/** Ids of what is a note at the end. */
function notesIn(before: readonly Entry[]): string[] {
  const notes = new Set<string>();
  for (const { id, body } of before) {
    if (body.kind === "note") notes.add(id);
    if (body.kind === "replace" && body.with.kind === "note") notes.add(body.target);
    if (body.kind === "replace" && body.with.kind !== "note") notes.delete(body.target);
  }
  return [...notes];
}

function aim(body: Extract<EntryBody, { target: string }>, ids: readonly string[], back: number): EntryBody {
  const target = ids[back % ids.length];
  return target === undefined ? { kind: "note", text: "first" } : { ...body, target };
}

const bandIn = <U extends Unit>(id: QuantityId, units: readonly U[]) => {
  const quantity = QUANTITIES.find((one) => one.id === id);
  if (!quantity) throw new RangeError(id);
  const { min, max } = quantity;
  return fc
    .tuple(
      fc.constantFrom(...units),
      number(0.001, 0.999),
      number(0.001, 0.999),
      fc.constantFrom("min", "max", "both"),
    )
    .map(([unit, a, b, sides]) => {
      const at = (share: number) => convert(min + (max - min) * share, quantity.units[0], unit);
      const low = at(Math.min(a, b));
      const high = at(Math.max(a, b));
      return { ...(sides === "max" ? {} : { min: low }), ...(sides === "min" ? {} : { max: high }), unit };
    });
};
const pressureUnits = ["mbar", "[in_i'H2O]", "kPa", "Pa", "[psi]"] as const;
const co2 = bandIn("co2", ["%"] as const);
const o2 = bandIn("o2", ["%"] as const);
const co = bandIn("co", ["[ppm]"] as const);
const pressure = bandIn("gas-pressure-inlet", pressureUnits);
const belowHigh = fc
  .tuple(number(-20, 20), number(-20, 20))
  .map(([a, b]) => ({ belowHigh: { min: Math.min(a, b), max: Math.max(a, b) }, unit: "%" as const }));
const some = { requiredKeys: [] };
const limits = fc.record(
  {
    high: fc.record({ co2, o2, co }, some),
    low: fc.record({ co2: fc.oneof(co2, belowHigh), o2, co }, some),
    "gas-pressure-inlet": fc.record(
      {
        static: pressure,
        dynamic: pressure,
        maxDrop: fc.record({ value: number(0.01, 10), unit: fc.constantFrom(...pressureUnits) }),
      },
      some,
    ),
  },
  { requiredKeys: ["high", "low"] },
);
const adjuster = fc.record(
  {
    co2Rises: fc.constantFrom("clockwise" as const, "counterclockwise" as const),
    percentPerTurn: fc.option(number(0.01, 20)),
    largestStepTurns: number(0.01, 5),
    underCap: fc.boolean(),
  },
  { requiredKeys: ["co2Rises", "percentPerTurn", "largestStepTurns"] },
);
const word = fc.string({ minLength: 1, maxLength: 20 });

export const anySheet: fc.Arbitrary<Sheet> = plain(
  fc.record({
    format: fc.constant("burnerside-sheet/1" as const),
    id: word,
    title: word,
    source: fc.record({
      document: word,
      edition: text,
      page: text,
      enteredBy: word,
      enteredOn: instant.map((at) => at.slice(0, 10)),
    }),
    fuels: fc.oneof(
      fc.record({ "natural-gas": limits }),
      fc.record({ propane: limits }),
      fc.record({ propane: limits, "natural-gas": limits }),
    ),
    adjusters: fc.record({ high: adjuster, low: adjuster }),
    settleSeconds: fc.record({ high: number(0, 3600), low: number(0, 3600) }),
    closing: fc.array(fc.constantFrom(...CLOSING_CHECKS), { maxLength: 7 }),
  }),
);

export const anyVisit: fc.Arbitrary<Visit> = plain(
  fc.record({
    format: fc.constant("burnerside-visit/1" as const),
    head: fc.record({
      id: word,
      title: fc.string({ maxLength: 40 }),
      startedAt: instant,
      zone: fc.option(fc.constantFrom("Europe/Vienna", "America/Toronto")),
      fuel: fc.constantFrom("natural-gas" as const, "propane" as const),
      units: fc.constantFrom("us" as const, "si" as const),
      sheet: fc.option(anySheet),
    }),
    entries,
  }),
);

/** With the prototypes that read files have. */
function plain<T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T> {
  return arbitrary.map((value) => structuredClone(value));
}
