import type { BrowserContext, Page } from "playwright-core";
import { speak, type Voice, wavOf } from "../support/speech/speak.ts";

/**
 * Puts a person before every microphone that the page opens, who says one of these texts when he is told to, in a room with a little
 * noise. All microphones hear the same.
 */
export async function seatMouth(
  context: BrowserContext,
  texts: readonly string[],
  voice: Voice,
): Promise<void> {
  const said: Record<string, string> = {};
  for (const text of texts) said[text] = Buffer.from(wavOf(await speak(text, voice))).toString("base64");
  await context.addInitScript(mouthInPage, said);
}

/** Has him say it; resolves when he has, and a moment of quiet is over. */
export function says(page: Page, text: string): Promise<void> {
  return page.evaluate(
    (one) => (globalThis as unknown as { says: (text: string) => Promise<void> }).says(one),
    text,
  );
}

/** Puts a recogniser of its own into the browser, that hears nothing, whatever is said: as in the roar of a burner. */
export function deafPlatform(): void {
  class Deaf {
    onstart: (() => void) | null = null;
    onend: (() => void) | null = null;
    start(): void {
      setTimeout(() => this.onstart?.(), 0);
    }
    abort(): void {
      setTimeout(() => this.onend?.(), 0);
    }
  }
  Object.assign(globalThis, { SpeechRecognition: Deaf, webkitSpeechRecognition: Deaf });
}

/** Runs in the page before the app. */
function mouthInPage(said: Record<string, string>): void {
  const VOLUME = 0.4;
  const NOISE = 0.0005;
  let context: AudioContext | null = null;
  let air: GainNode | null = null;
  const tracks: MediaStreamTrack[] = [];
  const room = (): { context: AudioContext; air: GainNode } => {
    if (context && air) return { context, air };
    context = new AudioContext();
    air = context.createGain();
    const noise = context.createBuffer(1, context.sampleRate, context.sampleRate);
    const samples = noise.getChannelData(0);
    for (let n = 0; n < samples.length; n++) samples[n] = NOISE * (2 * Math.random() - 1);
    const source = context.createBufferSource();
    source.buffer = noise;
    source.loop = true;
    source.connect(air);
    source.start();
    return { context, air };
  };
  navigator.mediaDevices.getUserMedia = async () => {
    const { context, air } = room();
    await context.resume();
    const microphone = context.createMediaStreamDestination();
    air.connect(microphone);
    tracks.push(...microphone.stream.getTracks());
    return microphone.stream;
  };
  const says = async (text: string): Promise<void> => {
    const { context, air } = room();
    const bytes = Uint8Array.from(atob(said[text] ?? ""), (sign) => sign.charCodeAt(0));
    const source = context.createBufferSource();
    source.buffer = await context.decodeAudioData(bytes.buffer);
    const volume = context.createGain();
    volume.gain.value = VOLUME;
    source.connect(volume).connect(air);
    await new Promise<void>((resolve) => {
      source.onended = () => resolve();
      source.start();
    });
    await new Promise<void>((resolve) => setTimeout(resolve, 400));
  };
  Object.assign(globalThis, { tracks, says });
}
