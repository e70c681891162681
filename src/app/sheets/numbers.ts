/** What a number field's text says. */
export type Typed =
  | { readonly kind: "empty" }
  | { readonly kind: "number"; readonly value: number }
  /** A number in two countries' ways: "1,500" is one and a half, or fifteen hundred. */
  | { readonly kind: "two-ways"; readonly values: readonly [string, string] }
  | { readonly kind: "unreadable" };

const PLAIN = /^[-−]?(?:\d{1,9}(?:[.,]\d{1,20})?|[.,]\d{1,20})$/;
/** One separator with three figures behind it, as thousands are written too; not after a lone zero ("0,125"). */
const GROUPED = /^[-−]?([1-9]\d{0,2})[.,](\d{3})$/;

/** Reads a number written with a decimal comma or point, as paper in either country has it. Nothing is guessed. */
export function typedNumber(text: string): Typed {
  const trimmed = text.trim();
  if (trimmed === "") return { kind: "empty" };
  const grouped = GROUPED.exec(trimmed);
  if (grouped) {
    const [, whole = "", rest = ""] = grouped;
    return { kind: "two-ways", values: [`${whole}${rest}`, `${whole}.${rest}0`] };
  }
  if (!PLAIN.test(trimmed)) return { kind: "unreadable" };
  return { kind: "number", value: Number(trimmed.replace(",", ".").replace("−", "-")) };
}

/** A field's text without the field's own unit behind the number: "8,5 %" is "8,5". Case, dots and spaces do not matter. */
export function withoutUnit(text: string, units: readonly string[]): string {
  const trimmed = text.trim();
  const [, number = "", behind = ""] = /^([-−]?[\d.,/ ]*[\d/])\s*([^\d\s].*)$/.exec(trimmed) ?? [];
  const bare = (unit: string) => unit.toLowerCase().replace(/[. ]/g, "");
  return number !== "" && units.some((unit) => bare(unit) === bare(behind)) ? number : trimmed;
}

const PART = /^(?:(\d)\s+)?(\d{1,2})\/(\d{1,2})$/;

/** The same for turns of a screw, which people write as parts of one too: "1/8", "1 1/2". */
export function typedTurns(text: string): Typed {
  const [, whole = "0", over, under] = PART.exec(text.trim()) ?? [];
  if (over === undefined || under === undefined) return typedNumber(text);
  if (Number(under) === 0) return { kind: "unreadable" };
  return { kind: "number", value: Number(whole) + Number(over) / Number(under) };
}

/** A number as the field shows it, so that it is read back as itself. */
export function textOf(value: number | undefined | null): string {
  if (value === undefined || value === null) return "";
  const short = String(value);
  const shown = short.includes("e") ? value.toFixed(20).replace(/0+$/, "") : short;
  return GROUPED.test(shown) ? `${shown}0` : shown;
}
