import fc from "fast-check";
import { COMMANDS, type Item, type Unsure } from "../../src/meaning/item.ts";
import { CHECKS, type Condition, type Firing } from "../../src/measure/firing.ts";
import { QUANTITIES, QUANTITY_IDS } from "../../src/measure/quantity.ts";
import { reading, type Said } from "./visits.ts";

const firing = fc.constantFrom<Firing[]>("high", "low");

const anyReading: fc.Arbitrary<Item> = fc
  .constantFrom(...QUANTITIES)
  .chain(({ id, min, max, units }) =>
    fc
      .tuple(
        fc.integer({ min: Math.round(min - 5) * 10, max: Math.round(max + 5) * 10 }),
        fc.constantFrom(null, ...units),
        fc.constantFrom<(Firing | null)[]>(null, "high", "low"),
        fc.constantFrom<(Condition | null)[]>(null, "static", "dynamic"),
      )
      .map(([tenths, unit, at, condition]) => ({ ...reading(id, tenths / 10), unit, firing: at, condition })),
  );

/** A flue reading in the range where the work is done. */
const flueReading: fc.Arbitrary<Item> = fc
  .tuple(
    fc.oneof(
      fc.integer({ min: 70, max: 125 }).map((v) => reading("co2", v / 10)),
      fc.integer({ min: 0, max: 90 }).map((v) => reading("o2", v / 10)),
      fc.integer({ min: 0, max: 600 }).map((v) => reading("co", v)),
    ),
    fc.constantFrom<(Firing | null)[]>(null, "high", "low"),
  )
  .map(([item, at]) => ({ ...item, firing: at }));

export const anyItem: fc.Arbitrary<Item> = fc.oneof(
  { weight: 2, arbitrary: anyReading },
  { weight: 5, arbitrary: flueReading },
  { weight: 2, arbitrary: firing.map((f): Item => ({ kind: "firing", firing: f })) },
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constant("adjustment" as const),
      adjuster: fc.constantFrom<(Firing | null)[]>(null, "high", "low"),
      turns: fc.constantFrom(-1, -0.5, -0.25, -0.1, 0.1, 0.25, 0.5, 1),
    }),
  },
  fc.integer({ min: 0, max: 120 }).map((v): Item => ({ kind: "replace", value: v / 10, unit: null })),
  fc.record({
    kind: fc.constant("replace" as const),
    value: fc.integer({ min: 0, max: 120 }).map((tenths) => tenths / 10),
    unit: fc.constant(null),
    quantity: fc.constantFrom(...QUANTITY_IDS),
  }),
  fc.constantFrom<Item[]>({ kind: "strike" }, { kind: "strike", last: "adjustment" }),
  fc.constant<Item>({ kind: "note", text: "a note" }),
  fc.record({ kind: fc.constant("check" as const), item: fc.constantFrom(...CHECKS), done: fc.boolean() }),
  fc.constantFrom(...COMMANDS).map((command): Item => ({ kind: "command", command })),
);

const anyTurns = fc.constantFrom(0.1, 0.25, 0.5, 1);

const anyQuestion: fc.Arbitrary<NonNullable<Unsure["question"]>> = fc.oneof(
  fc.record({
    asks: fc.constant("value" as const),
    quantity: fc.constantFrom(...QUANTITY_IDS),
    firing: fc.constantFrom(null, "high" as const, "low" as const),
    condition: fc.constant(null),
  }),
  fc.record({
    asks: fc.constant("quantity" as const),
    value: fc.integer({ min: 0, max: 120 }).map((tenths) => tenths / 10),
    unit: fc.constant(null),
  }),
  fc.record({
    asks: fc.constant("way" as const),
    adjuster: fc.constantFrom(null, "high" as const, "low" as const),
    turns: anyTurns,
  }),
  fc.record({ asks: fc.constant("screw" as const), turns: anyTurns }),
);

const anyUnsure: fc.Arbitrary<Unsure> = fc.record(
  {
    text: fc.constant("mumble"),
    reason: fc.constant("not understood"),
    candidates: fc.array(anyItem, { maxLength: 2 }),
    question: anyQuestion,
  },
  { requiredKeys: ["text", "reason", "candidates"] },
);

/** A random visit, as a script; gaps between utterances may be negative (a wrong clock). */
export const anyScript: fc.Arbitrary<Said[]> = fc
  .array(
    fc.tuple(
      fc.integer({ min: -30, max: 120 }),
      fc.array(fc.oneof({ weight: 6, arbitrary: anyItem }, anyUnsure), { maxLength: 3 }),
    ),
    { maxLength: 25 },
  )
  .map((turns) => {
    let at = 0;
    return turns.map(([gap, things]): Said => {
      at = Math.max(0, at + gap);
      return [at, ...things];
    });
  });
