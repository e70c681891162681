import { expect, it } from "vitest";
import { capital } from "../../src/measure/capital.ts";

it.each([
  ["static gas pressure", "Static gas pressure"],
  ["C O 2", "C O 2"],
  ["élan", "Élan"],
  ["", ""],
])("%s", (words, expected) => expect(capital(words)).toBe(expected));
