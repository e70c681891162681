import { z } from "zod";
import { ClosingCheck, Firing } from "../measure/firing.ts";
import { QuantityId } from "../measure/quantity.ts";
import { Unit } from "../measure/unit.ts";

/** A closed band in the unit of the verdict; null where that side has no limit. */
export const Limit = z.strictObject({ min: z.number().nullable(), max: z.number().nullable() });
export type Limit = z.infer<typeof Limit>;

export const Verdict = z.strictObject({
  quantity: QuantityId,
  firing: Firing.nullable(),
  value: z.number(),
  unit: Unit,
  verdict: z.enum(["pass", "fail", "wait", "no-limit"]),
  limit: Limit.nullable(),
});
export type Verdict = z.infer<typeof Verdict>;

/** The next thing to do, with numbers. */
export const Advice = z.discriminatedUnion("action", [
  z.strictObject({
    action: z.literal("turn"),
    adjuster: Firing,
    /** Signed turns, clockwise positive. */
    turns: z.number(),
    /** CO2 to expect after it settled, vol-%. */
    expect: z.strictObject({ min: z.number(), max: z.number() }),
    waitSeconds: z.number(),
  }),
  z.strictObject({ action: z.literal("read"), firing: Firing }),
  z.strictObject({ action: z.literal("wait"), seconds: z.number() }),
  z.strictObject({ action: z.literal("go-to"), firing: Firing }),
  z.strictObject({ action: z.literal("recheck-high") }),
  z.strictObject({ action: z.literal("close-up"), open: z.array(ClosingCheck) }),
  z.strictObject({ action: z.literal("stop"), reason: z.string() }),
  z.strictObject({ action: z.literal("none") }),
]);
export type Advice = z.infer<typeof Advice>;

export const WARNING_CODES = [
  "gas-smell",
  "co-alarm",
  "ambient-co-evacuate",
  "ambient-co-high",
  "ambient-co-raised",
  "flue-co-air-free-over-400",
  "flue-co-over-limit",
  "co-over-guidance",
  "rich-and-rising",
  "gas-pressure-out",
  "o2-co2-disagree",
  "wrong-firing",
  "low-before-high",
  "gas-pressure-not-read",
  "moved-wrong-way",
  "no-response",
  "no-progress",
  "wrong-screw",
  "step-too-large",
  "read-too-early",
  "left-unproved",
  "left-open",
] as const;

/** Something dangerous or suspect, said before all else. */
export const Warning = z.strictObject({ code: z.enum(WARNING_CODES), text: z.string() });
export type Warning = z.infer<typeof Warning>;

const STAGES = [
  "before-test",
  "gas-pressure",
  "high-fire",
  "low-fire",
  "recheck-high",
  "close-up",
  "finished",
] as const;
export const Stage = z.enum(STAGES);
export type Stage = z.infer<typeof Stage>;

/** All that is judged after one utterance. */
export const Judgement = z.strictObject({
  /** One per reading that the last utterance brought, in order. */
  verdicts: z.array(Verdict),
  advice: Advice,
  /** Gravest first. */
  warnings: z.array(Warning),
  stage: Stage,
  /** The next step in one short sentence. */
  next: z.string(),
});
export type Judgement = z.infer<typeof Judgement>;
