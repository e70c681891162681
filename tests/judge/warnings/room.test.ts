import { describe, expect, it } from "vitest";
import {
  check,
  co,
  co2,
  command,
  high,
  note,
  replace,
  room,
  type Said,
  strike,
} from "../../support/visits.ts";
import { codes, test } from "./told.ts";

describe("room CO: 9 and 35 ppm, 40 CFR 50.8(a); 70 ppm, UL 2034; only the gravest", () => {
  test([
    ["8: none", [[0, room(8)]], []],
    ["9: raised", [[0, room(9)]], ["ambient-co-raised"]],
    ["34: raised", [[0, room(34)]], ["ambient-co-raised"]],
    ["35: high", [[0, room(35)]], ["ambient-co-high", "stop"]],
    ["69: high", [[0, room(69)]], ["ambient-co-high", "stop"]],
    ["70: leave", [[0, room(70)]], ["ambient-co-evacuate", "stop"]],
    ["1200: leave", [[0, room(1200)]], ["ambient-co-evacuate", "stop"]],
    [
      "it stays while nothing new was read",
      [
        [0, room(70)],
        [9, note("windows open")],
      ],
      ["ambient-co-evacuate", "stop"],
    ],
    [
      "it goes with a new reading",
      [
        [0, room(70)],
        [99, room(5)],
      ],
      [],
    ],
    [
      "struck: read again",
      [
        [0, room(70)],
        [9, strike],
      ],
      ["ambient-co-evacuate", "stop"],
    ],
    [
      "a low one struck: the one before it stands",
      [
        [0, room(80)],
        [9, room(5)],
        [12, strike],
      ],
      ["ambient-co-evacuate", "stop"],
    ],
    [
      "mended: read again",
      [
        [0, room(70)],
        [9, replace(7)],
      ],
      ["ambient-co-evacuate", "stop"],
    ],
    [
      "mended to a lesser level that stops: the graver one stands",
      [
        [0, room(70)],
        [9, replace(40)],
      ],
      ["ambient-co-evacuate", "stop"],
    ],
    [
      "mended, then read",
      [
        [0, room(70)],
        [9, replace(7)],
        [20, room(7)],
      ],
      [],
    ],
    [
      "mended upwards",
      [
        [0, room(7)],
        [9, replace(70)],
      ],
      ["ambient-co-evacuate", "stop"],
    ],
    [
      "raised and mended: no stop to hold",
      [
        [0, room(20)],
        [9, replace(2)],
      ],
      [],
    ],
    [
      "raised and struck: no stop to hold",
      [
        [0, room(20)],
        [9, strike],
      ],
      [],
    ],
    [
      "raised is told once",
      [
        [0, room(9)],
        [9, high],
      ],
      [],
    ],
  ]);
  it("needs no sheet", () => expect(codes([[0, room(70)]], null)).toEqual(["ambient-co-evacuate", "stop"]));
});

describe("a smell of gas: stop until a leak check after it (common practice, no source)", () => {
  const smell: Said = [0, command("gas-smell")];
  const stop = ["gas-smell", "stop"];
  test([
    ["at once", [smell], stop],
    ["whatever is read", [smell, [9, high, co2(9.2), co(40), room(0)]], stop],
    [
      "a leak check made before says nothing",
      [
        [0, check("leak-check")],
        [5, command("gas-smell")],
      ],
      stop,
    ],
    ["a leak check that failed", [smell, [9, check("leak-check", false)]], stop],
    ["a leak check after it", [smell, [99, check("leak-check")]], []],
    ["a leak check taken back", [smell, [99, check("leak-check")], [120, check("leak-check", false)]], stop],
    ["it was said by mistake", [smell, [9, strike]], []],
    ["smelt again", [smell, [99, check("leak-check")], [120, command("gas-smell")]], stop],
  ]);
});

describe("a CO alarm that sounds: stop until room CO is read below 9 ppm", () => {
  const alarm: Said = [0, command("co-alarm")];
  const stop = ["co-alarm", "stop"];
  test([
    ["at once", [alarm], stop],
    [
      "room CO read before it says nothing",
      [
        [0, room(0)],
        [5, command("co-alarm")],
      ],
      stop,
    ],
    ["8 ppm after it", [alarm, [99, room(8)]], []],
    ["mended to 8 ppm: read again", [alarm, [99, room(18)], [105, replace(8)]], ["co-alarm", "stop"]],
    ["8 ppm, struck", [alarm, [99, room(8)], [105, strike]], stop],
    ["9 ppm after it", [alarm, [99, room(9)]], ["co-alarm", "ambient-co-raised", "stop"]],
    ["70 ppm after it", [alarm, [99, room(70)]], ["co-alarm", "ambient-co-evacuate", "stop"]],
  ]);
});
