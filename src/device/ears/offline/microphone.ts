import { MICROPHONE_RATE } from "./microphone-rate.ts";
import tapUrl from "./tap.worklet.ts?worker&url";

export interface Microphone {
  /** Releases the device: its light goes out. */
  close(): Promise<void>;
}

/**
 * The microphone as it is. What browsers do to a voice for calls is switched off: their noise suppression and gain
 * control gate and pump soft consonants against a steady burner, and differ from device to device. The models were
 * trained on plain sound in noise; loudness is evened out per utterance; and what is heard over the app's own voice is
 * marked, not cancelled.
 */
export const PLAIN_SOUND: MediaTrackConstraints = {
  channelCount: 1,
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
};

/**
 * Opens the microphone and sends its sound, mono at 48 kHz, to a port.
 * @param lost called once if the device goes away while open
 * @throws (rejects) a DOMException where the microphone is refused, missing or busy
 */
export async function openMicrophone(to: MessagePort, lost: () => void): Promise<Microphone> {
  const stream = await navigator.mediaDevices.getUserMedia({ audio: PLAIN_SOUND });
  const release = (): void => {
    for (const track of stream.getTracks()) track.stop();
  };
  let context: AudioContext | null = null;
  try {
    context = new AudioContext({ sampleRate: MICROPHONE_RATE, latencyHint: "interactive" });
    await context.audioWorklet.addModule(tapUrl);
    const tap = new AudioWorkletNode(context, "tap", { numberOfOutputs: 0, channelCount: 1 });
    tap.port.postMessage(to, [to]);
    context.createMediaStreamSource(stream).connect(tap);
    await context.resume();
  } catch (error) {
    release();
    await context?.close();
    throw error;
  }
  const opened = context;
  for (const track of stream.getTracks()) track.addEventListener("ended", lost, { once: true });
  return {
    async close() {
      release();
      if (opened.state !== "closed") await opened.close();
    },
  };
}

/** What stopped the microphone from opening, and what to do, in one sentence. */
export function microphoneProblem(error: unknown): string {
  const name = error instanceof DOMException ? error.name : "";
  switch (name) {
    case "NotAllowedError":
    case "SecurityError":
      return "The microphone is not allowed: allow it for this page in the browser's settings, or type.";
    case "NotFoundError":
    case "OverconstrainedError":
      return "No microphone was found: plug one in, or type.";
    case "NotReadableError":
    case "AbortError":
      return "The microphone is in use by another program: close that, or type.";
    default:
      return `The microphone could not be opened (${error instanceof Error ? error.message : String(error)}): type instead.`;
  }
}
