import { type ByFigures, namedByFigures } from "../../answer/by-figures.ts";
import type { Phrase } from "../../meaning/heard.ts";
import { type Figure, leastOf, numeralOf } from "./figures.ts";

/**
 * The phrase that a confirmed value is taken as. In figures: as words "C O two, nine two" could be 9.2 as well, and
 * "C O, zero zero five" nought.
 */
export function spelledPhrase(asked: ByFigures, figures: readonly Figure[]): Phrase {
  // "Point five" is written out.
  const numeral = numeralOf(figures).replace(/^(-?)\./, "$10.");
  const unit = asked.quantity === "gas-meter-time" ? " seconds" : "";
  return {
    text: `${namedByFigures(asked)} ${numeral}${unit}`,
    engine: "key-words",
    confidence: leastOf(figures),
    confirmed: true,
    sound: null,
  };
}
