import { expect, test } from "vitest";
import type { Finding, Signed } from "../../../src/record/integrity/finding.ts";
import { UNLINKED } from "../../../src/record/integrity/finding.ts";
import { type LogFound, logFound } from "../../../src/record/office/log-found.ts";

const by = (key: string, entries: number): Signed => ({ key, entries, at: "2026-11-26T10:00:00Z" });
const found = (kind: "whole" | "in-part", takenIn: number, ...signed: Signed[]): Finding => ({
  kind,
  signed,
  signedEntries: Math.max(...signed.map(({ entries }) => entries)),
  entries: 9,
  takenIn,
});
const whole = (...signed: Signed[]) => found("whole", 0, ...signed);

test.each<[finding: Finding | null, kept: LogFound]>([
  [null, { verdict: "not-examined", key: null }],
  [UNLINKED, { verdict: "unsigned", key: null }],
  [
    { kind: "altered", misfits: [{ kind: "head" }] },
    { verdict: "altered", key: null },
  ],
  [whole(by("a", 9)), { verdict: "whole", key: "a" }],
  [whole(by("a", 4), by("a", 9)), { verdict: "whole", key: "a" }],
  // A key that signed the last of it only must not stand for what another device, or nobody, vouches for.
  [whole(by("a", 4), by("b", 9)), { verdict: "whole", key: null }],
  [whole(by("a", 9), by("b", 9)), { verdict: "whole", key: null }],
  [found("whole", 9, by("a", 9)), { verdict: "whole", key: null }],
  [found("in-part", 0, by("a", 4)), { verdict: "in-part", key: null }],
])("%j", (finding, kept) => expect(logFound(finding)).toEqual(kept));
