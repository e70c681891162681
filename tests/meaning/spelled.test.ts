import { expect, it } from "vitest";
import { spelledOut } from "../../src/meaning/spelled.ts";

it.each([
  ["four zero", 40],
  ["four oh", 40],
  ["one one five", 115],
  ["one nine point five", 19.5],
  ["nine point two", 9.2],
  ["Four  Zero", 40],
  ["four", null],
  ["forty", null],
  ["forty four", null],
  ["point five", null],
  ["one point", null],
  ["one point two point three", null],
  ["four zero parts per million", null],
  ["", null],
])("%s: %s", (said, number) => expect(spelledOut(said, false)).toBe(number));

it.each([
  ["four zero parts per million", 40],
  ["five four celsius", 54],
  ["four zero", 40],
  ["parts per million", null],
  ["four percent", null],
])("%s, with its unit: %s", (said, number) => expect(spelledOut(said, true)).toBe(number));
