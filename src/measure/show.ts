import { type QuantityId, quantityOf } from "./quantity.ts";
import { shownUnit, spokenUnit, type Unit } from "./unit.ts";

/** A number as shown: the shortest decimal that is exact to six figures, with a true minus sign. */
export function shownNumber(value: number): string {
  return String(Number(value.toPrecision(6))).replace("-", "−");
}

const SMALL =
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(
    " ",
  );
const TENS = "zero ten twenty thirty forty fifty sixty seventy eighty ninety".split(" ");

/**
 * A number as a person says it: "nine point two", "one hundred seventy five", "minus two".
 * Decimals are said digit by digit, as Unicode CLDR's English spell-out rules do (`%spellout-cardinal`). From a million
 * on, which no quantity reaches, and below a millionth, the digits are left to the voice.
 */
export function spokenNumber(value: number): string {
  const text = String(Number(value.toPrecision(6)));
  if (text.includes("e") || Math.abs(value) >= 999_999.5) return shownNumber(value);
  const [whole = "0", decimals] = text.replace("-", "").split(".");
  const head = spokenInteger(Number(whole));
  const tail = decimals ? ` point ${[...decimals].map((d) => SMALL[Number(d)]).join(" ")}` : "";
  return `${value < 0 ? "minus " : ""}${head}${tail}`;
}

function spokenInteger(n: number): string {
  if (n < 20) return SMALL[n] ?? String(n);
  if (n < 100) return join(TENS[Math.floor(n / 10)] ?? "", n % 10);
  if (n < 1000) return join(`${spokenInteger(Math.floor(n / 100))} hundred`, n % 100);
  return join(`${spokenInteger(Math.floor(n / 1000))} thousand`, n % 1000);
}

function join(head: string, rest: number): string {
  return rest === 0 ? head : `${head} ${spokenInteger(rest)}`;
}

/** A value with its unit as shown: "9.2 %". */
export function shownValue(value: number, unit: Unit | null): string {
  return unit === null ? shownNumber(value) : `${shownNumber(value)} ${shownUnit(unit)}`;
}

/** A value as spoken, without the unit where the quantity has only one: "C O 2 nine point two". */
export function spokenReading(id: QuantityId, value: number, unit: Unit | null): string {
  const quantity = quantityOf(id);
  const said = `${quantity.spoken} ${spokenNumber(value)}`;
  return unit === null || quantity.units.length === 1 ? said : `${said} ${spokenUnitOf(value, unit)}`;
}

/** The unit as said after a number: "one inch of water", "seven inches of water". */
export function spokenUnitOf(value: number, unit: Unit): string {
  const many = spokenUnit(unit);
  if (Math.abs(value) !== 1) return many;
  return many
    .replace(/^inches/, "inch")
    .replace(/^feet/, "foot")
    .replace(/^([a-z]+)s\b/, "$1");
}
