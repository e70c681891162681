import { expect, test } from "vitest";
import type { Finding, Signed } from "../../../src/record/integrity/finding.ts";
import { UNLINKED } from "../../../src/record/integrity/finding.ts";
import { type LogFound, logFound } from "../../../src/record/office/log-found.ts";

const by = (key: string, entries: number): Signed => ({ key, entries, at: "2026-11-26T10:00:00Z" });
const whole = (...signed: Signed[]): Finding => ({
  kind: "whole",
  signed,
  signedEntries: Math.max(...signed.map(({ entries }) => entries)),
  entries: 9,
  takenIn: 0,
});

test.each<[finding: Finding | null, found: LogFound]>([
  [null, { verdict: "not-examined", key: null }],
  [UNLINKED, { verdict: "unsigned", key: null }],
  [
    { kind: "altered", misfits: [{ kind: "head" }] },
    { verdict: "altered", key: null },
  ],
  [whole(by("a", 4)), { verdict: "whole", key: "a" }],
  [whole(by("a", 4), by("b", 9)), { verdict: "whole", key: "b" }],
  [whole(by("a", 9), by("b", 4)), { verdict: "whole", key: "a" }],
  [whole(by("a", 9), by("b", 9)), { verdict: "whole", key: "b" }],
])("%j", (finding, found) => expect(logFound(finding)).toEqual(found));
