import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { exportVisit } from "../../src/record/bundle.ts";
import { examine } from "../../src/record/integrity/examine.ts";
import { EXAMINER } from "../support/cryptography.ts";
import { ALTERED, ALTERED_SEQ, bundleIn, DEMO, SIGNED } from "../support/demo-signed.ts";

test.each([SIGNED, ALTERED])("%s is written as the program writes it", (path) =>
  expect(exportVisit(bundleIn(path))).toBe(readFileSync(path, "utf8")),
);

test("the signed bundle is the demo's visit, signed to its end", async () => {
  const visit = bundleIn(SIGNED);
  const { integrity, ...rest } = visit;
  expect(integrity?.signatures).toHaveLength(1);
  expect(rest).toEqual(bundleIn(DEMO));
  const { length } = rest.entries;
  expect(await examine(visit, EXAMINER)).toMatchObject({
    kind: "whole",
    signedEntries: length,
    entries: length,
    takenIn: 0,
  });
});

test("of the altered one the entry that was made better is found", async () => {
  const misfits = [{ kind: "entry", seq: ALTERED_SEQ }];
  expect(await examine(bundleIn(ALTERED), EXAMINER)).toEqual({ kind: "altered", misfits });
});
