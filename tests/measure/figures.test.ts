import fc from "fast-check";
import { expect, test } from "vitest";
import { withFigures } from "../../src/measure/figures.ts";
import { shownNumber, spokenNumber } from "../../src/measure/show.ts";

test.each([
  ["Nine point two, forty, good. Go to low fire.", "9.2, 40, good. Go to low fire."],
  ["Wait sixty seconds.", "Wait 60 seconds."],
  ["Room CO one hundred seventy five.", "Room CO 175."],
  ["Limit eight point five to nine point five.", "Limit 8.5 to 9.5."],
  ["minus two pascals", "−2 pascals"],
  ["five thousand four hundred", "5400"],
  ["zero point zero five", "0.05"],
  // Digits one by one are no number.
  ["note: part number seven one five six two oh", "note: part number seven one five six two oh"],
  ["the code is four four one nine", "the code is four four one nine"],
  // Words that only hold one.
  ["Turn the screw one full turn, no one else.", "Turn the screw one full turn, no one else."],
  ["First zero the analyser.", "First zero the analyser."],
  ["often, tenth, quarter, weighty, ninetieth", "often, tenth, quarter, weighty, ninetieth"],
])("%s", (spoken, shown) => expect(withFigures(spoken)).toBe(shown));

test("every number that is spelled out comes back in figures", () =>
  fc.assert(
    fc.property(fc.double({ min: -999_999, max: 999_999, noNaN: true }), (value) => {
      fc.pre(Math.abs(value) >= 1e-4 && shownNumber(value) !== "1");
      expect(withFigures(spokenNumber(value))).toBe(shownNumber(value));
    }),
  ));
