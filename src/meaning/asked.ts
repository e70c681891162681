import { shownNumber } from "../measure/show.ts";
import type { Context } from "./context.ts";
import { doubt } from "./doubt.ts";
import { asking, type Draft } from "./draft.ts";
import { NOT_CLEAR } from "./item.ts";
import { mendedOf } from "./mend.ts";

/** A number that was not heard clearly becomes a question; the rest stays as it is. */
export function askedNumber(draft: Draft, phrase: string): Draft {
  if (!("item" in draft)) return draft;
  const { item } = draft;
  if (!["reading", "replace", "mend", "adjustment"].includes(item.kind)) return draft;
  return asking(item.kind === "reading" ? item.said : phrase, NOT_CLEAR, [item]);
}

/** More CO2 than the visit's gas can give without any excess air becomes a question. */
export function askedOfGas(draft: Draft, phrase: string, { gas, known }: Context): Draft {
  if (!("item" in draft) || gas === null) return draft;
  const { item } = draft;
  const isReading = item.kind === "reading";
  if (!isReading && item.kind !== "replace") return draft;
  const quantity = isReading ? item.quantity : (item.quantity ?? mendedOf(item.value, known)?.quantity);
  if (quantity !== "co2" || item.value <= gas.co2Max || doubt(quantity, item.value, item.unit) !== null)
    return draft;
  const most = shownNumber(Number(gas.co2Max.toFixed(1)));
  return asking(isReading ? item.said : phrase, `this gas gives at most ${most} % CO2`, [item]);
}
