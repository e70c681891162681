import { CLIP_RATE, type Clip } from "./clip.ts";

/**
 * The samples of a kept clip: mono, 16 kHz, full scale 1. On the page: workers have no decoder of this kind.
 * Rejects where the browser cannot read it.
 */
export async function decodedClip({ data }: Clip): Promise<Float32Array> {
  const context = new OfflineAudioContext(1, 1, CLIP_RATE);
  // The decoder takes the buffer away: it gets a copy.
  const decoded = await context.decodeAudioData(data.slice(0));
  return decoded.getChannelData(0);
}
