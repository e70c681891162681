import { spokenUnitOf } from "../measure/show.ts";
import type { Unit } from "../measure/unit.ts";

/** How a unit may be written, and how it is said after one and after many. */
interface Row {
  readonly written: string;
  /** Too short, or too much of a word, to be a unit without a number before it. */
  readonly onlyAfterNumber?: true;
  readonly one: string;
  readonly many: string;
}

function row(written: string, unit: Unit): Row {
  return { written, one: spokenUnitOf(1, unit), many: spokenUnitOf(2, unit) };
}

/** After normalising to NFKC, so that "m³" is "m3" and the sign of micro is the letter mu. Longer before shorter. */
const ROWS: readonly Row[] = [
  row("ppm|PPM", "[ppm]"),
  row("%", "%"),
  row("° ?C|degC", "Cel"),
  row("° ?F|degF", "[degF]"),
  row(String.raw`(?:in(?:ch(?:es)?)?\.?|") ?(?:w\.? ?[cg]\b\.?|W\.? ?[CG]\b\.?|H2O)`, "[in_i'H2O]"),
  row("mbar", "mbar"),
  row("kPa", "kPa"),
  { ...row("Pa", "Pa"), onlyAfterNumber: true },
  row("psi", "[psi]"),
  row("rpm|RPM|min-1|/min", "/min"),
  row("[μu]A", "uA"),
  row("[Ll]/min", "L/min"),
  row("gal/min|gpm|GPM", "[gal_us]/min"),
  { written: "ft3|cu ft|cf", one: "cubic foot", many: "cubic feet" },
  { written: "m3/h", one: "cubic metre per hour", many: "cubic metres per hour" },
  { written: "m3", one: "cubic metre", many: "cubic metres" },
  { written: "Btu/hr?|BTU/hr?|BTUH", one: "B T U per hour", many: "B T U per hour" },
  { written: "Btu|BTU", one: "B T U", many: "B T U" },
  { written: "kW", one: "kilowatt", many: "kilowatts" },
  { written: "mm", one: "millimetre", many: "millimetres" },
  { ...row("ft", "[ft_i]"), onlyAfterNumber: true },
  { ...row("m", "m"), onlyAfterNumber: true },
  { ...row("s|sec", "s"), onlyAfterNumber: true },
  { written: "min", one: "minute", many: "minutes", onlyAfterNumber: true },
];

const NUMBER = String.raw`(?<number>\d[\d.,]*(?<=\d)|(?<![a-z][ -])\bone)`;

const PATTERNS = ROWS.map(({ written, onlyAfterNumber, one, many }) => {
  const before = onlyAfterNumber ? NUMBER : String.raw`(?:${NUMBER}|(?<![\p{L}\d]))`;
  return {
    pattern: new RegExp(String.raw`${before} ?(?:${written})(?![\p{L}\d])`, "gu"),
    one,
    many,
  };
});

/** Units by name: "9.2 %" becomes "9.2 percent", "1 ppm" "1 part per million". */
export function unitsInWords(text: string): string {
  return PATTERNS.reduce(
    (said, { pattern, one, many }) =>
      said.replace(pattern, (...match) => {
        const { number } = match.at(-1) as { number?: string };
        const space = number === undefined && !match[0].startsWith(" ") ? "" : " ";
        return `${number ?? ""}${space}${number === "1" || number === "one" ? one : many}`;
      }),
    text,
  );
}
