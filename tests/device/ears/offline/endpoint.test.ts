import { expect, it } from "vitest";
import { type EndpointStep, endpoint, QUIET } from "../../../../src/device/ears/offline/endpoint.ts";

/** Stretches of [frames, probability of a voice] -> what happened, besides quiet and speech. */
const steps = (...stretches: [number, number][]): EndpointStep[] => {
  let state = QUIET;
  return stretches
    .flatMap(([frames, voice]) => Array.from({ length: frames }, () => voice))
    .map((voice) => {
      const next = endpoint(state, voice);
      state = next.state;
      return next.step;
    })
    .filter((step) => step !== "quiet" && step !== "speech");
};

it.each<[string, [number, number][], EndpointStep[]]>([
  ["quiet stays quiet", [[500, 0.5]], []],
  [
    "a click of 30 ms is no voice",
    [
      [3, 0.9],
      [200, 0],
    ],
    [],
  ],
  [
    "a click of 40 ms begins and is dropped",
    [
      [4, 0.9],
      [200, 0],
    ],
    ["begin", "drop"],
  ],
  [
    "a word may be over after 0.22 s of quiet",
    [
      [30, 0.9],
      [22, 0],
    ],
    ["begin", "pause"],
  ],
  [
    "and not before",
    [
      [30, 0.9],
      [21, 0],
    ],
    ["begin"],
  ],
  [
    "it is over after 0.65 s",
    [
      [30, 0.9],
      [65, 0],
    ],
    ["begin", "pause", "end"],
  ],
  [
    "and not before",
    [
      [30, 0.9],
      [64, 0],
    ],
    ["begin", "pause"],
  ],
  [
    'a breath before "point" does not part',
    [
      [30, 0.9],
      [50, 0],
      [30, 0.9],
      [65, 0],
    ],
    ["begin", "pause", "pause", "end"],
  ],
  ["a voice without end is cut at 15 s", [[1500, 0.9]], ["begin", "end"]],
])("%s", (_, stretches, expected) => {
  expect(steps(...stretches)).toEqual(expected);
});
