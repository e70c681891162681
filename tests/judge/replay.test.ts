import { expect, test } from "vitest";
import { warnedAlong, warnedIn } from "../../src/judge/raised.ts";
import { replay } from "../../src/judge/replay.ts";
import { byHand, mend } from "../support/by-hand.ts";
import { longVisit } from "../support/long-visit.ts";

test("each reading has the verdict of its time: what was mended later was judged as it was", () => {
  const { visit } = byHand(["high fire CO2 9.9", "half out", "@250 CO2 9.2", "low fire"], [mend(0, "9.2")]);
  const verdicts = [...replay(visit)].map(({ since, verdicts: found }) => [
    since[0].phrase,
    ...[...found].map(([id, { value, verdict }]) => `${id} ${value} ${verdict}`),
  ]);
  expect(verdicts).toEqual([
    ["high fire CO2 9.9", "e0 9.9 fail"],
    ["half out"],
    ["CO2 9.2", "e2 9.2 wait"],
    ["low fire"],
    ["9.2", "e0 9.2 pass"],
  ]);
});

test("the warnings along a visit end where the warnings in it are", () => {
  const visit = longVisit(150);
  const along = [...warnedAlong(visit)];
  expect(along.at(-1)).toEqual(warnedIn(visit));
  expect(along.length).toBeGreaterThan(80);
});
