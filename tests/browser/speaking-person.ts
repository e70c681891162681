import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import type { BrowserContext } from "playwright-core";
import type { ReadingPlan } from "../../src/app/own-voice/plan.ts";
import { exportVoice } from "../../src/app/own-voice/voice-file.ts";
import type { VoiceProfile } from "../../src/device/spotter/voice-profile.ts";
import { voiceOf } from "../app/own-voice/voices.ts";
import { speak, type Voice, wavOf } from "../support/speech/speak.ts";

/** How the person answers, told to the page as it goes: at the ask of this number, this many tries go wrong in this way. */
export interface Slip {
  readonly ask: number;
  readonly tries: number;
  /** Silence, or the volume in place of the usual one. */
  readonly volume: number;
}

const SHORT: ReadingPlan = {
  noiseSeconds: 1.5,
  words: ["yes", "no"],
  takes: 2,
  sentences: ["The cat slept under the kitchen table all morning."],
};

/**
 * Puts a person before the page's microphone who reads aloud what it shows, each time that it listens: a synthetic voice in a room with a
 * little noise. What is read is two words, twice each, and a sentence.
 */
export async function seatPerson(
  context: BrowserContext,
  slips: readonly Slip[] = [],
  plan = SHORT,
  voice: Voice = "rms",
): Promise<void> {
  await context.route(/\/reading-[^/]*\.json$/, (route) => route.fulfill({ json: plan }));
  const said: Record<string, string> = {};
  for (const text of [...plan.words, ...plan.sentences])
    said[text] = Buffer.from(wavOf(await speak(text, voice))).toString("base64");
  await context.addInitScript(personInPage, { said, slips });
}

/** A voice that was taught to the ear that ships. */
export async function ownVoice(): Promise<VoiceProfile> {
  const weights = await readFile("grammars/en/spotter/weights.bin");
  const base = createHash("sha256").update(weights).digest("base64url");
  return voiceOf({ spotter: { ...voiceOf().spotter, base } });
}

export async function ownVoiceFile(): Promise<string> {
  return exportVoice(await ownVoice());
}

/** Runs in the page before the app. */
function personInPage({ said, slips }: { said: Record<string, string>; slips: readonly Slip[] }): void {
  const VOLUME = 0.4;
  const NOISE = 0.0005;
  let sound: { context: AudioContext; microphone: MediaStreamAudioDestinationNode } | null = null;
  const tracks: MediaStreamTrack[] = [];
  Object.assign(globalThis, { tracks });
  navigator.mediaDevices.getUserMedia = async () => {
    const context = new AudioContext();
    await context.resume();
    const microphone = context.createMediaStreamDestination();
    const noise = context.createBuffer(1, context.sampleRate, context.sampleRate);
    noise.getChannelData(0).forEach((_, at, samples) => {
      samples[at] = NOISE * (2 * Math.random() - 1);
    });
    const room = context.createBufferSource();
    room.buffer = noise;
    room.loop = true;
    room.connect(microphone);
    room.start();
    sound = { context, microphone };
    tracks.push(...microphone.stream.getTracks());
    return microphone.stream;
  };
  const say = async (text: string, volume: number) => {
    const bytes = Uint8Array.from(atob(said[text] ?? ""), (letter) => letter.charCodeAt(0));
    if (!sound || bytes.length === 0) return;
    const { context, microphone } = sound;
    const voice = context.createBufferSource();
    voice.buffer = await context.decodeAudioData(bytes.buffer);
    const loudness = context.createGain();
    loudness.gain.value = volume;
    voice.connect(loudness).connect(microphone);
    // As soon as people answer.
    voice.start(context.currentTime + 0.3);
  };
  const slipped = new Map<number, number>();
  const answer = async (ask: number, text: string) => {
    const tries = slipped.get(ask) ?? 0;
    slipped.set(ask, tries + 1);
    const slip = slips.find((one) => one.ask === ask && tries < one.tries);
    await say(text, slip?.volume ?? VOLUME);
  };
  let before = "";
  setInterval(() => {
    const shown = document.querySelector("[data-asked]");
    const [ask, phase] = [shown?.getAttribute("data-asked"), shown?.getAttribute("data-phase")];
    const now = `${ask} ${phase}`;
    if (now === before) return;
    before = now;
    if (phase === "listening") void answer(Number(ask), shown?.textContent ?? "");
  }, 30);
}
