import { expect, test } from "vitest";
import { testFolder } from "../support/folder.ts";
import { type Counts, killDictated, killTyped } from "./kills.ts";

// What a SIGKILL cannot show is what a power cut does: the system keeps what a killed process has written. For that
// the browser is asked to flush before it reports success (strict durability, see visit.test.ts).

const { BURNERSIDE_SEED } = process.env;
const SEED = Number(BURNERSIDE_SEED ?? Math.floor(Math.random() * 1e6));
const print = (line: string) => process.stdout.write(`${line} (seed ${SEED})\n`);
const { path: folder } = testFolder();

function tell(how: string, counts: Counts, kills: number): void {
  const { answered, stored, entries } = counts;
  print(`${how}: ${kills} kills, ${answered} phrases answered, ${stored} stored, ${entries} entries`);
  expect(counts.kills).toBe(kills);
  expect(answered).toBeGreaterThan(0);
  expect(stored).toBeGreaterThanOrEqual(answered);
}

test("no answered phrase of a visit typed at speed is lost, however often the browser is killed", async () => {
  tell("typed", await killTyped({ kills: 6, seed: SEED, print }), 6);
});

test("nor of one that is dictated", async () => {
  tell("dictated", await killDictated({ kills: 2, seed: SEED, print }, folder), 2);
});
