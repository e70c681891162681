/**
 * Own voice, measured on this machine: `npm run bench:voice [-- --quick] [-- --only words|false|few-shot|adaptation]`. How well key words are
 * heard and how often they are heard where nobody said them, what a few takes of a person bring, and what the phrase recogniser learns
 * of confirmed phrases. Voices and speakers that the models were not trained on; recordings of people only where ../shared/speech is.
 */
import { loadBaseModel } from "../../src/device/spotter/assets-node.ts";
import { measureAdaptation } from "./voice/adaptation.ts";
import { hasDigits, SPEAKERS } from "./voice/digits.ts";
import { fewShot } from "./voice/few-shot.ts";
import { measureFalse, measureWords } from "./voice/words.ts";

const quick = process.argv.includes("--quick");
const only = process.argv.includes("--only") ? process.argv[process.argv.indexOf("--only") + 1] : undefined;
const print = (line: string): void => void process.stdout.write(`${line}\n`);
const wanted = (part: string): boolean => only === undefined || only === part;

const base = await loadBaseModel();
if (wanted("words")) await measureWords(base, quick, print);
if (wanted("false")) await measureFalse(base, quick, print);
if (wanted("few-shot") && hasDigits()) {
  const all: Awaited<ReturnType<typeof fewShot>> = [];
  for (const speaker of quick ? SPEAKERS.slice(0, 1) : SPEAKERS) {
    for (const shot of await fewShot(speaker, quick ? [0, 8] : [0, 2, 4, 8], quick ? 8 : 16)) {
      all.push(shot);
      const { takes, quiet, noisy, wall, processor } = shot;
      const time =
        takes === 0 ? "" : `, taught in ${wall.toFixed(1)} s (${processor.toFixed(1)} s of processor)`;
      print(`${speaker}, ${takes} takes a digit: quiet ${share(quiet)}, 10 dB ${share(noisy)}${time}`);
    }
  }
  for (const takes of new Set(all.map((shot) => shot.takes))) {
    const these = all.filter((shot) => shot.takes === takes);
    const mean = (of: (shot: (typeof all)[number]) => number): number =>
      these.reduce((sum, shot) => sum + of(shot), 0) / these.length;
    print(
      `all, ${takes} takes: quiet ${share(mean(({ quiet }) => quiet))}, 10 dB ${share(mean(({ noisy }) => noisy))}`,
    );
  }
} else if (wanted("few-shot")) print("no ../shared/speech or no opusdec: takes of people left out");
if (wanted("adaptation")) await measureAdaptation(print, quick);

function share(part: number): string {
  return `${(100 * part).toFixed(1)} %`;
}
