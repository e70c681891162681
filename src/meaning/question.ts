import { z } from "zod";
import { Condition, Dial, Firing } from "../measure/firing.ts";
import { QuantityId } from "../measure/quantity.ts";
import { Unit } from "../measure/unit.ts";

/** What is missing: the next phrase may give just that, and nothing else need be said again. */
export const Question = z.discriminatedUnion("asks", [
  /** "CO2": how much? */
  z.strictObject({
    asks: z.literal("value"),
    quantity: QuantityId,
    firing: Firing.nullable(),
    condition: Condition.nullable(),
    /** Other quantities that were in question, for a number that cannot be of the first. */
    others: z.array(QuantityId).optional(),
    /** Of a meter's time, what it is for, where that was said. */
    dial: Dial.optional(),
  }),
  /** "Nine point two": of what? */
  z.strictObject({ asks: z.literal("quantity"), value: z.number(), unit: Unit.nullable() }),
  /** "A quarter turn": which way? `turns` is without a sign. */
  z.strictObject({ asks: z.literal("way"), adjuster: Firing.nullable(), turns: z.number() }),
  /** "A quarter turn clockwise": of which screw? `turns` is signed, clockwise positive. */
  z.strictObject({ asks: z.literal("screw"), turns: z.number() }),
]);
export type Question = z.infer<typeof Question>;
