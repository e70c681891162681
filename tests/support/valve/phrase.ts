import { spokenTurns } from "../../../src/judge/turns.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import { spokenNumber } from "../../../src/measure/show.ts";
import type { Shown } from "./boiler.ts";
import type { Chance } from "./chance.ts";

/** What is said, and what it is meant as, in the short notation of `tests/support/short.ts`. */
export interface Said {
  readonly text: string;
  readonly meant: string;
}

/** A reading, as one person or another says it: "CO2 nine point two, CO forty". */
export function readingSaid(c: Chance, firing: Firing, shown: Shown): Said {
  const [dioxide, monoxide] = wordsOf(shown);
  const isNamed = c.is(0.3);
  const text = c.oneOf([
    `CO2 ${dioxide}, CO ${monoxide}`,
    `CO2 ${dioxide} percent, CO ${monoxide} ppm`,
    `CO2 is ${dioxide} and CO ${monoxide}`,
    `C O two ${dioxide} C O ${monoxide}`,
  ]);
  return {
    text: isNamed ? `${firing} fire ${text}` : text,
    meant: meantBy(shown, isNamed ? ` ${firing}` : ""),
  };
}

/** The same once more, plainly, after a question came back. */
export function readingRepeated(shown: Shown): Said {
  const [dioxide, monoxide] = wordsOf(shown);
  return { text: `CO2 is ${dioxide} percent, CO is ${monoxide} ppm`, meant: meantBy(shown, "") };
}

const wordsOf = ({ co2, co }: Shown) => [tenthSaid(co2), spokenNumber(co)] as const;

const meantBy = ({ co2, co }: Shown, at: string) => `co2 ${co2} %${at}; co ${co} [ppm]${at}`;

/** As an analyser shows it, with its decimal: "eight point zero". */
const tenthSaid = (value: number) => `${spokenNumber(value)}${Number.isInteger(value) ? " point zero" : ""}`;

/** A turn that was made. */
export function turnSaid(c: Chance, screw: Firing, clockwise: number): Said {
  const turns = spokenTurns(clockwise);
  const text = c.oneOf([
    `${screw} screw ${turns}`,
    `${screw} fire screw ${turns}`,
    `turned the ${screw} fire screw ${turns}`,
  ]);
  return { text, meant: `turn ${screw} ${Number(clockwise.toPrecision(6))}` };
}

export function firingSaid(c: Chance, firing: Firing): Said {
  return {
    text: c.oneOf([`${firing} fire`, `going to ${firing} fire`, `now on ${firing} fire`]),
    meant: `firing ${firing}`,
  };
}

/** Inches of water, to a tenth. */
export function pressureSaid(condition: "static" | "dynamic", inches: number): Said {
  const value = Number(inches.toFixed(1));
  return {
    text: `${condition} gas pressure ${spokenNumber(value)} inches`,
    meant: `gas-pressure-inlet ${value} [in_i'H2O] ${condition}`,
  };
}
