import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { BrowserContext } from "playwright-core";
import { dictate, wavOf } from "../support/speech/speak.ts";
import { chance } from "../support/valve/chance.ts";
import type { App, OpenOptions, StoredRow } from "./app.ts";
import { withApp } from "./app.ts";

// A visit whose browser is killed again and again. What was answered is written down outside of the browser, as it happens;
// what was stored is read from IndexedDB after each start on the same profile.

export interface KillOptions {
  readonly kills: number;
  readonly seed: number;
  /** Told of each kill. */
  readonly print: (line: string) => void;
}

/** What was counted over all kills. */
export interface Counts {
  readonly kills: number;
  /** Phrases whose answer was shown or spoken before a kill. */
  readonly answered: number;
  /** Phrases whose entries were in IndexedDB after the next start. */
  readonly stored: number;
  /** Entries of the whole visit, once it was gone on with. */
  readonly entries: number;
}

/** One thing that the page told as it happened. */
type Told = { readonly kind: "shown" | "spoken"; readonly text: string };

/** A kill comes so long, at most, after an answer that was drawn by chance, ms: the work on a phrase or two when typed. */
const TYPED_MS = 80;
const DICTATED_MS = 6000;
/** How often the dictated phrases are said. */
const TIMES = 5;
/** Which answer it is, at most. */
const TYPED_ANSWERS = 12;

/** Types a visit as fast as the browser takes it, and kills it. Throws where anything that was answered is not stored. */
export function killTyped({ kills, seed, print }: KillOptions): Promise<Counts> {
  return killed({ kills, print }, {}, async (app, told, round) => {
    const drawn = chance(seed + round);
    const [after, ms] = [Math.floor(drawn.from(0, TYPED_ANSWERS)), Math.round(drawn.from(0, TYPED_MS))];
    const typed: string[] = [];
    let isOver = false;
    const killing = (async () => {
      await answers(told, after);
      await pause(ms);
      isOver = true;
      await app.launched.kill();
    })();
    killing.catch(() => {
      isOver = true;
    });
    while (!isOver) {
      const phrase = phraseOf(round, typed.length);
      typed.push(phrase);
      // Nobody is left to take the last one.
      await app.send(phrase).catch((error: unknown) => {
        if (!isOver) throw error;
      });
    }
    await killing;
    const spoken = told.filter(({ kind }) => kind === "spoken").length;
    const lastShown = told.findLast(({ kind }) => kind === "shown");
    const shown = lastShown ? typed.indexOf(lastShown.text) + 1 : 0;
    return {
      name: `typed, ${ms} ms after answer ${after}`,
      answered: typed.slice(0, Math.max(spoken, shown)),
      spoken,
    };
  });
}

/** The same for a visit that is dictated by a WAV as the microphone; `folder` is for that file. */
export async function killDictated({ kills, seed, print }: KillOptions, folder: string): Promise<Counts> {
  const microphone = join(folder, "dictated.wav");
  const { rate, samples } = await dictate(DICTATED, { voice: "rms", before: 3, pause: 1.2 });
  // Again and again: a slow machine misses the first of it.
  const long = new Float32Array(samples.length * TIMES);
  for (let time = 0; time < TIMES; time += 1) long.set(samples, time * samples.length);
  await writeFile(microphone, wavOf({ rate, samples: long }));
  return killed({ kills, print }, { microphone }, async (app, told, round) => {
    const ms = Math.round(chance(seed + round).from(0, DICTATED_MS));
    await app.listen();
    const shown = () => told.flatMap(({ kind, text }) => (kind === "shown" ? [text] : []));
    await answers(told, 1);
    await pause(ms);
    await app.launched.kill();
    const spoken = told.filter(({ kind }) => kind === "spoken").length;
    return { name: `dictated, ${ms} ms after the first answer`, answered: shown(), spoken };
  });
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** Resolves when so many answers were shown. */
async function answers(told: readonly Told[], count: number): Promise<void> {
  for (const until = Date.now() + 120_000; told.filter(({ kind }) => kind === "shown").length < count; ) {
    if (Date.now() > until)
      throw new Error(`Expected ${count} answers in two minutes, found ${JSON.stringify(told)}.`);
    await pause(5);
  }
}

/** What was answered until a kill: the phrases whose answers were seen, and how many answers were heard. */
interface Until {
  readonly name: string;
  readonly answered: readonly string[];
  readonly spoken: number;
}

async function killed(
  { kills, print }: Pick<KillOptions, "kills" | "print">,
  options: Omit<OpenOptions, "served" | "profile" | "prepare">,
  work: (app: App, told: Told[], round: number) => Promise<Until>,
): Promise<Counts> {
  const told: Told[] = [];
  const prepare = async (context: BrowserContext) => {
    await context.exposeBinding("tell", (_, one: Told) => void told.push(one));
    await context.addInitScript(tellAnswers);
  };
  return withApp({ ...options, prepare }, async (first, reopen) => {
    let app = first;
    await app.startVisit();
    let before: StoredRow[] = [];
    let [answered, stored] = [0, 0];
    for (let round = 0; round < kills; round += 1) {
      told.length = 0;
      const until = await work(app, told, round);
      if (told.some(({ text }) => text.startsWith("Not saved"))) throw new Error("Something was not saved.");
      app = await reopen();
      await app.page.locator(".face").waitFor();
      const rows = await app.stored();
      const since = phrasesOf(rowsSince(before, rows));
      check(until, since);
      print(`${until.name}: ${until.answered.length} answered, ${since.length} stored`);
      answered += until.answered.length;
      stored += since.length;
      before = rows;
      await shows(app, rows);
    }
    await app.type("note: gone on with");
    const rows = await app.stored();
    if (rows.length !== before.length + 1) throw new Error("Expected one more entry once the visit goes on.");
    await app.wholeLog();
    return { kills, answered, stored, entries: rows.length };
  });
}

/** The rows after those that were there before, which must be there still, as they were. */
function rowsSince(before: readonly StoredRow[], now: readonly StoredRow[]): readonly StoredRow[] {
  if (JSON.stringify(now.slice(0, before.length)) !== JSON.stringify(before))
    throw new Error("Entries from before the kill are not as they were.");
  return now.slice(before.length);
}

/** Whole utterances are stored, or nothing of them: entries of one time and phrase are one. */
function phrasesOf(rows: readonly StoredRow[]): string[] {
  const keys = rows.map(({ entry }) => `${entry.at} ${entry.phrase}`);
  return rows.flatMap(({ entry }, i) => (keys[i] === keys[i - 1] ? [] : [entry.phrase]));
}

/** Each phrase that was answered is stored, in that order; of what was not seen to be answered something may be stored, too. */
function check({ name, answered, spoken }: Until, stored: readonly string[]): void {
  let place = 0;
  for (const phrase of answered) {
    place = stored.indexOf(phrase, place) + 1;
    if (place === 0)
      throw new Error(`${name}: “${phrase}” was answered and is not stored: ${JSON.stringify(stored)}`);
  }
  if (spoken > stored.length) throw new Error(`${name}: ${spoken} answers spoken, ${stored.length} stored.`);
}

/** The screen stands where the stored visit ends. */
async function shows(app: App, rows: readonly StoredRow[]): Promise<void> {
  const last = rows.findLast(({ entry }) => entry.phrase !== "");
  if (last) await app.page.locator(".heard-words", { hasText: last.entry.phrase }).waitFor();
}

/** Phrases as they come at the boiler, no two of a round the same: each is one answer, and one entry or two. */
function phraseOf(round: number, place: number): string {
  const firing = place % 8 < 5 ? "high" : "low";
  switch (place % 3) {
    case 0:
      return `${firing} fire CO2 9.${round % 10}, CO ${20 + place}`;
    case 1:
      return `CO ${20 + place}`;
    default:
      return `note: line ${place} of round ${round}`;
  }
}

const DICTATED = [
  "high fire CO2 nine point two, CO forty",
  "CO forty five",
  "low fire CO2 eight point nine",
  "CO thirty",
  "CO2 nine point one",
  "high fire CO2 nine point three, CO fifty",
  "CO forty two",
  "low fire CO2 nine point zero",
  "CO thirty five",
  "test port plugged",
  "panel back on",
  "manometer removed",
];

/** Runs in the page: tells, as it happens, what was answered on the screen (by the phrase) and aloud. */
function tellAnswers(): void {
  const { tell } = globalThis as unknown as { tell: (told: Told) => void };
  const { speak } = SpeechSynthesis.prototype;
  SpeechSynthesis.prototype.speak = function (utterance) {
    tell({ kind: "spoken", text: utterance.text });
    speak.call(this, utterance);
  };
  let last = "";
  const look = () => {
    // Only what gave entries is a section.
    const words = document.querySelector("section.heard .heard-words")?.textContent ?? "";
    if (words === last || words === "") return;
    last = words;
    tell({ kind: "shown", text: words.slice(1, -1) });
  };
  new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true });
}
