import type { Firing } from "../measure/firing.ts";
import { spokenNumber } from "../measure/show.ts";

/** The turns a hand can do, largest first. */
export const HAND_TURNS: readonly { readonly turns: number }[] = [
  { turns: 1 },
  { turns: 3 / 4 },
  { turns: 1 / 2 },
  { turns: 1 / 4 },
  { turns: 1 / 8 },
  { turns: 1 / 10 },
  { turns: 1 / 12 },
];

interface Parts {
  readonly of: number;
  readonly one: string;
  readonly many: string;
  /** How far off a turn may be and still be called so: 0.33 is a third. */
  readonly within: number;
}

const NEAR = 0.004;
const EXACT = 0.0005;

/** The parts of a turn that have a name, the first that fits being said. */
const PARTS: readonly Parts[] = [
  { of: 2, one: "half", many: "halves", within: NEAR },
  { of: 4, one: "quarter", many: "quarters", within: NEAR },
  { of: 3, one: "third", many: "thirds", within: NEAR },
  { of: 8, one: "eighth", many: "eighths", within: NEAR },
  { of: 6, one: "sixth", many: "sixths", within: NEAR },
  { of: 5, one: "fifth", many: "fifths", within: NEAR },
  { of: 10, one: "tenth", many: "tenths", within: NEAR },
  { of: 12, one: "twelfth", many: "twelfths", within: NEAR },
  { of: 20, one: "twentieth", many: "twentieths", within: NEAR },
  { of: 16, one: "sixteenth", many: "sixteenths", within: EXACT },
  { of: 7, one: "seventh", many: "sevenths", within: EXACT },
  { of: 9, one: "ninth", many: "ninths", within: EXACT },
  { of: 11, one: "eleventh", many: "elevenths", within: EXACT },
];

/**
 * How far, without direction: "a quarter turn", "three eighths of a turn", "one and a quarter turns". What is no simple
 * fraction is said in degrees where they are whole ("fifty degrees"), else as a decimal ("point one three of a turn").
 */
export function spokenAmount(turns: number): string {
  const size = Math.abs(turns);
  const whole = Math.floor(size + NEAR);
  const rest = size - whole;
  const part = fraction(rest);
  if (whole === 0) return part ? ofATurn(part) : oddPart(size);
  if (rest < NEAR) return whole === 1 ? "one full turn" : `${spokenNumber(whole)} turns`;
  if (part) return `${spokenNumber(whole)} and ${part} turns`;
  return `${spokenNumber(Number(size.toFixed(3)))} turns`;
}

/** "A half", "three eighths"; null where no part that has a name is near. */
function fraction(rest: number): string | null {
  for (const { of, one, many, within } of PARTS) {
    const count = Math.round(rest * of);
    if (count < 1 || Math.abs(rest - count / of) >= within) continue;
    return count === 1 ? `${one.startsWith("e") ? "an" : "a"} ${one}` : `${spokenNumber(count)} ${many}`;
  }
  return null;
}

function ofATurn(part: string): string {
  if (part === "a half") return "half a turn";
  return part === "a quarter" ? "a quarter turn" : `${part} of a turn`;
}

function oddPart(size: number): string {
  const degrees = Math.round(size * 360);
  if (degrees > 0 && Math.abs(size * 360 - degrees) < 0.05) {
    return `${spokenNumber(degrees)} ${degrees === 1 ? "degree" : "degrees"}`;
  }
  const decimal = Number(size.toFixed(3));
  // A hand cannot do less; said so that it is never taken for a turn.
  if (decimal === 0) return "next to no turn";
  return `${spokenNumber(decimal).replace(/^zero /, "")} of a turn`;
}

/** Signed turns with their direction: "half a turn clockwise". */
export function spokenTurns(turns: number): string {
  return `${spokenAmount(turns)} ${turns < 0 ? "counterclockwise" : "clockwise"}`;
}

export function spokenScrew(adjuster: Firing): string {
  return `${adjuster} fire screw`;
}

/** Whole seconds, rounded up so that a wait is never cut short: "sixty seconds". */
export function spokenSeconds(seconds: number): string {
  const whole = Math.ceil(seconds);
  return `${spokenNumber(whole)} ${whole === 1 ? "second" : "seconds"}`;
}
