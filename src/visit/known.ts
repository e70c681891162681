import type { Known } from "../meaning/context.ts";
import type { VisitState } from "./state.ts";

/** The last standing reading of each quantity in each unit and firing, the newest last: what a new one is held against. */
export function knownIn({ readings }: Pick<VisitState, "readings">): Known[] {
  const last = new Map<string, Known>();
  for (const { reading } of readings) {
    const { quantity, value, unit, firing } = reading;
    const key = `${quantity} ${unit} ${firing}`;
    last.delete(key);
    last.set(key, { quantity, value, unit, firing });
  }
  return [...last.values()];
}
