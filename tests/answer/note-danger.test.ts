import { expect, test } from "vitest";
import { noteDanger } from "../../src/answer/note-danger.ts";
import { answer } from "../support/talk.ts";

// A note stops no work: who dictates a danger into one has to be told what does.

test.each([
  ["relight takes three tries and I smell gas", "I smell gas"],
  ["smelled gas at the meter this morning", "I smell gas"],
  ["smell of gas in the cellar", "I smell gas"],
  ["gas leak at the union last week", "I smell gas"],
  ["customer says CO alarm went off last night", "alarm is going off"],
  ["carbon monoxide detector is out of date", "alarm is going off"],
])("%s", (text, say) => expect(noteDanger(text)).toContain(say));

test.each([
  "gas valve was out of adjustment",
  "gasket worn",
  "smells of oil",
  "CO was high before the turn",
  "alarm panel in the hall",
])("nothing is said of: %s", (text) => expect(noteDanger(text)).toBe(""));

test("it is said with the note that was kept", () => {
  const said = answer(["note relight takes three tries and I smell gas"]);
  expect(said).toContain("ote: relight takes three tries");
  expect(said).toContain("if you smell it now, say I smell gas");
});

test.each(["the CO alarm is going off", "my CO alarm is beeping"])(
  "called out alone it is answered like: %s",
  (longer) => {
    expect(answer(["CO alarm"])).toContain("leave now");
    expect(answer(["CO alarm"])).toBe(answer([longer]));
  },
);
