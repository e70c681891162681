/**
 * Hours of listening, with memory flat: `npm run bench:soak [-- --hours N]`, 8 simulated ones unless told otherwise, as fast as the
 * machine computes. A visit an hour. Exit status 1 where memory grew, nothing was heard, or anything was held back.
 */
import { loadLanguage } from "../../src/cli/language.ts";
import { loadEarAssets } from "../../src/device/ears/offline/assets-node.ts";
import { seeded } from "./hearing/noise.ts";
import { type Held, held, isFlat, MARGINS, mean } from "./soak/memory.ts";
import { BLOCK, daySound, RATE, speech } from "./soak/sound.ts";
import { startWorkday } from "./soak/workday.ts";

const asked = process.argv.indexOf("--hours");
const HOURS = asked < 0 ? 8 : Number(process.argv[asked + 1]);
if (!(HOURS >= 1)) throw new RangeError("Expected a number of hours, at least 1, after --hours.");
const SAMPLES_AN_HOUR = 2;
const BLOCKS_AN_HOUR = (3600 * RATE) / BLOCK;

const print = (line: string): void => void process.stdout.write(`${line}\n`);
const mib = (bytes: number): string => (bytes / 2 ** 20).toFixed(1);

const assets = await loadEarAssets();
const day = await startWorkday(assets, loadLanguage());
const sound = daySound(await speech(seeded(8)), seeded(9));
const samples: Held[] = [];
const before = performance.now();

print("hours  heap MiB  outside MiB  RSS MiB  tensors  arena MiB  utterances  phrases  entries  answers");
for (let block = 1; block <= HOURS * BLOCKS_AN_HOUR; block += 1) {
  await day.hear(sound.next().value ?? new Float32Array(BLOCK));
  if (block % (BLOCKS_AN_HOUR / SAMPLES_AN_HOUR) === 0) {
    const now = await held();
    samples.push(now);
    const { utterances, phrases, entries, answers } = day.counted;
    const row = [
      (block / BLOCKS_AN_HOUR).toFixed(1).padStart(5),
      mib(now.heap).padStart(8),
      mib(now.outside).padStart(11),
      mib(now.rss).padStart(7),
      String(now.tensors).padStart(7),
      mib(now.arena).padStart(9),
      String(utterances).padStart(10),
      String(phrases).padStart(7),
      String(entries).padStart(7),
      String(answers).padStart(7),
    ];
    print(row.join("  "));
  }
  if (block % BLOCKS_AN_HOUR === 0) await day.nextVisit();
}
await day.end();

const quarter = Math.floor(samples.length / 4);
const second = samples.slice(quarter, 2 * quarter);
const last = samples.slice(-quarter);
let ok = quarter > 0;
for (const what of ["heap", "outside", "rss", "tensors", "arena"] as const) {
  const [then, now] = [mean(second, what), mean(last, what)];
  const flat = isFlat(then, now, what);
  ok &&= flat;
  const show = (value: number) => (what === "tensors" ? String(value) : `${mib(value)} MiB`);
  const { share, bytes } = MARGINS[what];
  const margin = share === 0 ? "no more" : `at most ${share * 100} % or ${mib(bytes)} MiB more`;
  print(`${what}: second quarter ${show(then)}, last ${show(now)} (${margin}: ${flat ? "flat" : "GROWN"})`);
}
const { entries, held: heldBack } = day.counted;
if (entries === 0 || heldBack > 0) {
  ok = false;
  print(`stored ${entries} entries, held back ${heldBack}: expected some, and none`);
}
const took = (performance.now() - before) / 1000;
print(
  `${HOURS} hours of sound in ${(took / 60).toFixed(1)} minutes, ${(took / HOURS / 3600).toFixed(3)} s per second`,
);
process.exitCode = ok ? 0 : 1;
