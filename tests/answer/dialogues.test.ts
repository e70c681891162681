import { describe, expect, it } from "vitest";
import { dialogue } from "../support/dialogue.ts";

/** Phrase by phrase: what is answered, then what stands in the log at the end. */
describe("dialogues", () => {
  type Line = readonly [phrase: string, answer: string];
  const way = "A quarter turn: clockwise or counterclockwise?";
  const screw = "A quarter turn of which screw: high or low?";
  const cases: [string, readonly Line[], string][] = [
    [
      "which way, then which screw: one question takes the place of the other",
      [
        ["quarter turn", way],
        ["yes", way],
        ["in", screw],
        ["yes", screw],
        ["the high one", "High fire screw a quarter turn clockwise."],
        ["yes", "Nothing to confirm."],
      ],
      "high fire screw a quarter turn clockwise",
    ],
    [
      "an impossible value asks again, and is forgotten",
      [
        ["CO2", "C O 2: how much?"],
        ["ninety nine thousand", "C O 2: how much?"],
        ["minus five", "C O 2: how much?"],
        ["nine point one", "C O 2 nine point one. No sheet, not judged."],
      ],
      "C O 2 nine point one",
    ],
    [
      "the next number that may have been meant, then none",
      [
        ["CO two ten", "C O 2 ten?"],
        ["no", "C O two hundred ten?"],
        ["no", "Dropped."],
        ["yes", "Nothing to confirm."],
      ],
      "",
    ],
    [
      "low: the firing, or a judgement",
      [
        ["high fire", "High fire."],
        ["CO2 eight point six low", "Low fire C O 2 eight point six?"],
        ["no", "C O 2 eight point six?"],
        ["yes", "C O 2 eight point six. No sheet, not judged."],
      ],
      "high fire; C O 2 eight point six",
    ],
    [
      "a correction that cannot be, and the value instead of yes",
      [
        ["CO2 eight", "C O 2 eight. No sheet, not judged."],
        ["no, ninety", "Make C O 2 nine?"],
        ["nine point three", "Now C O 2 nine point three. No sheet, not judged."],
        ["yes", "Nothing to confirm."],
      ],
      "C O 2 nine point three",
    ],
    [
      "a correction that cannot be, and no",
      [
        ["CO2 eight", "C O 2 eight. No sheet, not judged."],
        ["no, ninety", "Make C O 2 nine?"],
        ["no", "Dropped."],
      ],
      "C O 2 eight",
    ],
    [
      "a number said again mends the question, not an old reading",
      [
        ["CO2 nine", "C O 2 nine. No sheet, not judged."],
        ["nine point two", "Nine point two of what?"],
        ["no, nine point four", "Nine point four of what?"],
        ["flame current", "Flame current nine point four. No sheet, not judged."],
      ],
      "C O 2 nine; flame current nine point four",
    ],
    [
      "a turn said again mends the question, not an old reading",
      [
        ["CO2 nine", "C O 2 nine. No sheet, not judged."],
        ["low screw a quarter", `Low fire screw ${way.toLowerCase()}`],
        ["no, an eighth", "Low fire screw an eighth of a turn: clockwise or counterclockwise?"],
        ["out", "Low fire screw an eighth of a turn counterclockwise."],
      ],
      "C O 2 nine; low fire screw an eighth of a turn counterclockwise",
    ],
    [
      "a turn of the screw that was said, not of the firing's",
      [
        ["high fire", "High fire."],
        ["low screw a quarter", `Low fire screw ${way.toLowerCase()}`],
        [
          "an eighth clockwise",
          "The low fire screw was turned at high fire. Low fire screw an eighth of a turn clockwise.",
        ],
      ],
      "high fire; low fire screw an eighth of a turn clockwise",
    ],
    [
      "strike that turn drops the turn in question",
      [
        ["high screw a tenth in", "High fire screw a tenth of a turn clockwise."],
        ["quarter turn", way],
        ["strike that turn", "Dropped."],
        ["strike that turn", "Struck high fire screw a tenth of a turn clockwise."],
        ["strike that turn", "No turn to strike."],
      ],
      "",
    ],
    [
      "strike that turn leaves what was said after it",
      [
        ["high screw a tenth in", "High fire screw a tenth of a turn clockwise."],
        ["CO2 nine", "C O 2 nine. No sheet, not judged."],
        ["strike that turn", "Struck high fire screw a tenth of a turn clockwise."],
      ],
      "C O 2 nine",
    ],
    [
      "a question of the same breath stays",
      [
        ["quarter turn clockwise, CO2 nine", `C O 2 nine. No sheet, not judged. ${screw}`],
        ["the low one", "Low fire screw a quarter turn clockwise."],
      ],
      "C O 2 nine; low fire screw a quarter turn clockwise",
    ],
    [
      "a new question takes the place of an old one: a late yes logs nothing",
      [
        ["CO2 ninety two", "C O 2 nine point two?"],
        ["high screw a quarter", `High fire screw ${way.toLowerCase()}`],
        ["in", "High fire screw a quarter turn clockwise."],
        ["yes", "Nothing to confirm."],
      ],
      "high fire screw a quarter turn clockwise",
    ],
    [
      "the work goes on: a late yes logs nothing",
      [
        ["CO2 ninety two", "C O 2 nine point two?"],
        ["low fire", "Low fire."],
        ["yes", "Nothing to confirm."],
      ],
      "low fire",
    ],
    [
      "talk and questions to the helper leave it open",
      [
        ["CO2", "C O 2: how much?"],
        ["hand me the torch", ""],
        [
          "read back",
          "No readings yet. Still to do: before test, high fire, low fire, close up. C O 2: how much?",
        ],
        ["repeat", "C O 2: how much?"],
        ["nine", "C O 2 nine. No sheet, not judged."],
      ],
      "C O 2 nine",
    ],
    [
      "a named correction of what was never read is a reading",
      [["no, the CO was one thirty", "C O one hundred thirty. No sheet, not judged."]],
      "C O one hundred thirty",
    ],
    [
      "a check that is not done is read back as not done",
      [
        ["cap isn't on yet", "Low fire cap is off."],
        ["cap is on", "Low fire cap on."],
      ],
      "low fire cap is off; low fire cap on",
    ],
    [
      "the meter's dial is read back with its time",
      [
        [
          "half foot dial eighteen seconds",
          "Meter time eighteen seconds for half a cubic foot. No sheet, not judged. Gas input about one hundred three thousand B T U per hour gross.",
        ],
      ],
      "meter time eighteen seconds for half a cubic foot",
    ],
    ["talk is not answered", [["hand me the four millimetre key", ""]], ""],
    ["no to nothing", [["no", "Nothing to confirm."]], ""],
  ];
  it.each(cases)("%s", (_name, lines, log) => {
    const found = dialogue(lines.map(([phrase]) => phrase));
    expect(found.steps.map(({ phrase, answer }) => [phrase, answer])).toEqual(lines);
    expect(found.log).toBe(log);
  });
});
