/**
 * Whether anything that was answered is lost when the browser's processes are killed in the middle of a visit: `npm run
 * bench:kill`. What is measured: README.md beside this file. After `--`: `--kills N` (typed), `--dictated N`, `--seed S`.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { type Counts, killDictated, killTyped } from "../browser/kills.ts";

const { values: args } = parseArgs({
  options: {
    kills: { type: "string", default: "60" },
    dictated: { type: "string", default: "10" },
    seed: { type: "string", default: "1" },
  },
});
const print = (line: string) => process.stdout.write(`${line}\n`);
const seed = Number(args.seed);
const tell = (how: string, { kills, answered, stored, entries }: Counts) =>
  print(
    `${how}, seed ${seed}: ${kills} kills, ${answered} phrases answered before them, ${stored} stored after; ${entries} entries, none missing`,
  );

const folder = await mkdtemp(join(tmpdir(), "burnerside-kill-"));
try {
  // What was answered and is not stored throws.
  tell("typed", await killTyped({ kills: Number(args.kills), seed, print }));
  tell("dictated", await killDictated({ kills: Number(args.dictated), seed, print }, folder));
} finally {
  await rm(folder, { recursive: true, force: true });
}
