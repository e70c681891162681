import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hashOf, type Place, placeOf } from "../../src/app/place.ts";

const START: Place = { kind: "start" };

describe("addresses", () => {
  test.each<[string, Place]>([
    ["", START],
    ["#", START],
    ["#/welcome", { kind: "welcome" }],
    ["#/boiler", { kind: "boiler" }],
    ["#/afterwards/a1", { kind: "afterwards", visitId: "a1" }],
    ["#/sheets", { kind: "sheets" }],
    ["#/office", { kind: "office", part: { kind: "visits" } }],
    ["#/office/visit/a1", { kind: "office", part: { kind: "visit", id: "a1" } }],
    ["#/office/appliances", { kind: "office", part: { kind: "appliances" } }],
    ["#/office/appliance/B%2017", { kind: "office", part: { kind: "appliance", id: "B 17" } }],
    ["#/office/follow-ups", { kind: "office", part: { kind: "follow-ups" } }],
    ["#/sheet", { kind: "sheet", id: null }],
    ["#/own-voice", { kind: "own-voice", id: null }],
    ["#/own-voice/p1", { kind: "own-voice", id: "p1" }],
    ["#/sheet/demo-35", { kind: "sheet", id: "demo-35" }],
    // Of nothing that there is.
    ["#/afterwards", START],
    ["#/afterwards/%E0%A4%A", START],
    ["#/office/visit", { kind: "office", part: { kind: "visits" } }],
    ["#/office/elsewhere", { kind: "office", part: { kind: "visits" } }],
    ["#/elsewhere", START],
    ["boiler", START],
  ])("%s", (hash, place) => expect(placeOf(hash)).toEqual(place));

  test("every place is found again by its address", () =>
    fc.assert(
      fc.property(fc.string({ minLength: 1, unit: "grapheme" }), (id) => {
        for (const place of [
          { kind: "afterwards", visitId: id },
          { kind: "sheet", id },
          { kind: "own-voice", id },
          { kind: "office", part: { kind: "visit", id } },
          { kind: "office", part: { kind: "appliance", id } },
        ] as const)
          expect(placeOf(`#${hashOf(place)}`)).toEqual(place);
      }),
    ));
});
