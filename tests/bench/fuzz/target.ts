import type { Chance } from "../../support/valve/chance.ts";

/** What a reader made of an input. Both are right: an exception, a hang or an unclear sentence is not. */
export type Verdict = "accepted" | "refused";

/** One reader that is fuzzed. */
export interface Target<Input = unknown> {
  readonly name: string;
  /** How many inputs it is given, unless told otherwise. */
  readonly inputs: number;
  /** An input; the same for the same chance. */
  readonly draw: (chance: Chance) => Input;
  /** Throws `Fault`, or anything at all, where the reader is wrong. */
  readonly read: (input: Input) => Verdict | Promise<Verdict>;
}

/** A reader that did otherwise than it should. */
export class Fault extends Error {
  override readonly name = "Fault";
}

export function target<Input>(one: Target<Input>): Target {
  return { ...one, read: (input) => one.read(input as Input) };
}
