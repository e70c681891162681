import { expect, it } from "vitest";
import { below, density } from "../../../src/judge/valve/normal.ts";

// Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1, from memory: P(z), five places.
it.each([
  [0, 0.5],
  [0.5, 0.69146],
  [1, 0.84134],
  [1.96, 0.975],
  [2.5758, 0.995],
  [-1, 0.15866],
  [-3, 0.00135],
])("the share below %f standard deviations", (z, share) => {
  expect(below(z, 0, 1)).toBeCloseTo(share, 4);
  expect(below(10 + 2 * z, 10, 4)).toBeCloseTo(share, 4);
});

it("the density integrates to the share", () => {
  const step = 0.001;
  let sum = 0;
  for (let x = -6; x < 1; x += step) sum += step * density(x + step / 2, 0, 1);
  expect(sum).toBeCloseTo(below(1, 0, 1), 5);
});
