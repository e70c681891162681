import { loadLanguage } from "../../../src/cli/language.ts";
import { loadEarAssets } from "../../../src/device/ears/offline/assets-node.ts";
import { seeded } from "../hearing/noise.ts";
import { flatness } from "./flat.ts";
import { type Held, held, MARGINS } from "./memory.ts";
import { BLOCK, daySound, RATE, speech } from "./sound.ts";
import { startWorkday } from "./workday.ts";

const BLOCKS_AN_HOUR = (3600 * RATE) / BLOCK;
const HEADS = [
  "hours",
  "heap MiB",
  "outside MiB",
  "RSS MiB",
  "tensors",
  "arena MiB",
  "utterances",
  "phrases",
  "entries",
  "answers",
];

/** Hours of listening in Node, a visit an hour; what is held, every half hour. Whether it stayed the same, and all was stored. */
export async function soakDay(hours: number, print: (line: string) => void): Promise<boolean> {
  const day = await startWorkday(await loadEarAssets(), loadLanguage());
  const sound = daySound(await speech(seeded(8)), seeded(9));
  const samples: Held[] = [];
  const before = performance.now();
  print(HEADS.join("  "));
  for (let block = 1; block <= hours * BLOCKS_AN_HOUR; block += 1) {
    await day.hear(sound.next().value ?? new Float32Array(BLOCK));
    if (block % (BLOCKS_AN_HOUR / 2) === 0) {
      const now = await held();
      samples.push(now);
      const { utterances, phrases, entries, answers } = day.counted;
      const mib = [now.heap, now.outside, now.rss, now.arena].map((bytes) => (bytes / 2 ** 20).toFixed(1));
      const [heap = "", outside = "", rss = "", arena = ""] = mib;
      const row = [
        block / BLOCKS_AN_HOUR,
        heap,
        outside,
        rss,
        now.tensors,
        arena,
        utterances,
        phrases,
        entries,
        answers,
      ];
      print(row.map((cell, at) => String(cell).padStart(HEADS[at]?.length ?? 0)).join("  "));
    }
    if (block % BLOCKS_AN_HOUR === 0) await day.nextVisit();
  }
  await day.end();

  const { ok, lines } = flatness(samples, MARGINS);
  for (const line of lines) print(line);
  const took = (performance.now() - before) / 1000;
  print(
    `${hours} hours of sound in ${(took / 60).toFixed(1)} minutes, ${(took / hours / 3600).toFixed(3)} s per second`,
  );
  const { entries, held: heldBack } = day.counted;
  if (entries > 0 && heldBack === 0) return ok;
  print(`stored ${entries} entries, held back ${heldBack}: expected some, and none`);
  return false;
}
