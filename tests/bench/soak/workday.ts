import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { contextOf } from "../../../src/answer/context.ts";
import { type Talkativeness, talkAfter } from "../../../src/answer/talk.ts";
import { standing, takeAmendment, takeTurn } from "../../../src/answer/turn.ts";
import { Session } from "../../../src/app/boiler/session.ts";
import { Listening } from "../../../src/app/sound/listening.ts";
import type { Ear, EarEvent } from "../../../src/device/ears/ear.ts";
import type { EarAssets } from "../../../src/device/ears/offline/recogniser.ts";
import { createRecogniser } from "../../../src/device/ears/offline/recogniser.ts";
import type { Speaker } from "../../../src/device/speaker.ts";
import { choose } from "../../../src/meaning/choose.ts";
import type { Language } from "../../../src/meaning/network.ts";
import { createParser } from "../../../src/meaning/parser.ts";
import { steers } from "../../../src/meaning/steers.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { ALONE } from "../../app/build.ts";
import { sheet } from "../../support/sheets.ts";

const START = Date.parse("2026-11-25T08:00:00Z");
/** Letters that the voice says in a second, from memory. */
const LETTERS = 15;

/** What has come of the day so far. */
export interface Counted {
  utterances: number;
  phrases: number;
  entries: number;
  answers: number;
  held: number;
}

export interface Workday {
  readonly counted: Counted;
  /** A block of sound; resolves when all that came of it has been stored and answered. */
  hear(samples: Float32Array): Promise<void>;
  /** The visit is over, and another begins. */
  nextVisit(): Promise<void>;
  end(): Promise<void>;
}

/**
 * The app as it listens: recogniser, listening, session and judge as they are, with a clock that is the sound's own, a voice that
 * takes as long as it would, and entries that are flushed to a file.
 */
export async function startWorkday(assets: EarAssets, language: Language): Promise<Workday> {
  const parser = createParser(language);
  const recogniser = createRecogniser(assets, language, () => performance.now());
  const folder = mkdtempSync(join(tmpdir(), "burnerside-soak-"));
  const counted: Counted = { utterances: 0, phrases: 0, entries: 0, answers: 0, held: 0 };
  let seconds = 0;
  let ids = 0;
  let visits = 0;
  let talk: Talkativeness = "normal";
  let taking: Promise<void> = Promise.resolve();
  let disk = -1;
  let voice: { until: number; done: () => void }[] = [];

  let tell: (event: EarEvent) => void = () => undefined;
  const ear: Ear = {
    engine: "offline",
    async listen(on) {
      tell = on;
      on({ kind: "listening" });
    },
    voiceSounds: (sounding) => recogniser.over(sounding),
    stop: async () => recogniser.reset(),
  };
  const speaker: Speaker = {
    speak: (text) =>
      new Promise<void>((done) => {
        voice.push({ until: seconds + text.length / LETTERS, done });
      }),
    cancel: () => fallSilent(() => true),
  };
  const fallSilent = (isOver: (until: number) => boolean): void => {
    const over = voice.filter(({ until }) => isOver(until));
    voice = voice.filter(({ until }) => !isOver(until));
    for (const { done } of over) done();
  };
  const now = () => new Date(START + Math.round(seconds * 1000)).toISOString();

  const open = async (): Promise<Session> => {
    visits += 1;
    disk = openSync(join(folder, `${visits}.jsonl`), "a");
    const visit: Visit = {
      format: "burnerside-visit/1",
      head: {
        id: `visit-${visits}`,
        title: "Otterfold Mill",
        startedAt: now(),
        zone: null,
        fuel: "natural-gas",
        units: "us",
        sheet: sheet(),
      },
      entries: [],
    };
    return Session.open(visit, {
      take: (before, phrase, at, level, asked) =>
        takeTurn(parser, before, phrase, at, () => `e${ids++}`, level, asked),
      amend: (before, amendment, at, level) =>
        takeAmendment(parser, before, amendment, at, () => `e${ids++}`, level),
      stand: standing,
      understand: (text, before) => parser.understood(text, contextOf(before)),
      append: async (_, entries) => {
        counted.entries += entries.length;
        for (const entry of entries) writeSync(disk, `${JSON.stringify(entry)}\n`);
        fsyncSync(disk);
      },
      ...ALONE,
      elapsed: () => seconds * 1000,
      now,
      say: (text) => {
        counted.answers += 1;
        void listening.say(text);
      },
      // Sound is encoded by the browser: it has no part here.
      keepSound: () => {},
      talk: () => talk,
      effect: async (effect) => {
        talk = talkAfter(talk, effect);
      },
      reason: String,
      breathe: async () => {},
    });
  };

  const listening = new Listening(
    speaker,
    {
      choose: (utterance) => choose(utterance, (text) => parser.parse(text)),
      steers: (text) => steers(parser.parse(text)),
    },
    (phrase) => {
      counted.phrases += 1;
      taking = Promise.all([taking, session.hear(phrase)]).then(() => undefined);
    },
    () => false,
  );
  let session = await open();
  await listening.start(async () => ear);

  return {
    counted,
    async hear(samples) {
      for (let at = 0; at < samples.length; at += 160) {
        for (const heard of recogniser.hear(samples.subarray(at, at + 160))) {
          if (heard.kind === "utterance") counted.utterances += 1;
          tell(heard);
        }
      }
      seconds += samples.length / 16_000;
      fallSilent((until) => until <= seconds);
      await taking;
      session.ready();
      counted.held = Math.max(counted.held, session.held.incoming.value.length);
    },
    async nextVisit() {
      await taking;
      taking = Promise.resolve();
      session.leave();
      closeSync(disk);
      session = await open();
    },
    async end() {
      await listening.stop();
      recogniser.destroy();
      closeSync(disk);
      rmSync(folder, { recursive: true });
    },
  };
}
