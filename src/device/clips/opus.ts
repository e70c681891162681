import {
  AudioSample,
  AudioSampleSource,
  BufferTarget,
  canEncodeAudio,
  OggOutputFormat,
  Output,
  Quality,
} from "mediabunny";
import { CLIP_RATE, type Clip } from "./clip.ts";

/** Bits per second: speech stays plain to follow (RFC 6716, 2.1.1, from memory: 16-20 kbit/s for wideband speech). */
const BITRATE = 20_000;

/**
 * Mono samples at 16 kHz, full scale 1, as Opus in Ogg (RFC 6716, RFC 7845), through the browser's own encoder.
 * Null where it has none. Rejects where encoding fails.
 */
export async function opusClip(sound: Float32Array): Promise<Clip | null> {
  const quality = new Quality({ bitrate: BITRATE });
  const shape = { numberOfChannels: 1, sampleRate: CLIP_RATE };
  if (!(await canEncodeAudio("opus", { ...shape, quality }))) return null;
  const target = new BufferTarget();
  const output = new Output({ format: new OggOutputFormat(), target });
  const source = new AudioSampleSource({ codec: "opus", quality });
  output.addAudioTrack(source);
  await output.start();
  const sample = new AudioSample({ ...shape, data: Float32Array.from(sound), format: "f32", timestamp: 0 });
  await source.add(sample);
  sample.close();
  await output.finalize();
  return target.buffer && { type: "audio/ogg; codecs=opus", data: target.buffer };
}
